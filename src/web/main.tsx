import "@fontsource/source-serif-4/latin-400.css";
import "@fontsource/source-serif-4/latin-400-italic.css";
import "@fontsource/atkinson-hyperlegible-next/latin-400.css";
import "@fontsource/atkinson-hyperlegible-next/latin-700.css";
import "./page.css";
import "./paper.css";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { keepForOffline } from "./offline/register-offline.ts";

createRoot(document.getElementById("page") as HTMLElement).render(<App />);
if (!__STICK__) void keepForOffline();
