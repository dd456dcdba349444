import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/** Two builds of one page: files for the server, and in mode "stick" one classic script with everything inside. */
export default defineConfig(({ mode }) => {
  const stick = mode === "stick";
  return {
    root: "src/web",
    base: "/",
    plugins: [react()],
    define: { "process.env.NODE_ENV": JSON.stringify("production"), __STICK__: JSON.stringify(stick) },
    publicDir: false,
    worker: { format: "iife" },
    build: stick
      ? {
          outDir: "../../dist/stick-parts",
          emptyOutDir: true,
          assetsInlineLimit: 10_000_000,
          cssCodeSplit: false,
          lib: { entry: "main.tsx", formats: ["iife"], name: "Veinwright", fileName: "page" },
        }
      : { outDir: "../../dist/web", emptyOutDir: true, sourcemap: false },
  };
});
