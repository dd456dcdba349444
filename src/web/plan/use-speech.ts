import { useCallback, useEffect } from "react";

/** One press, or Alt and R, reads the answer aloud where the machine can. */
export function useSpeech(text: string): () => void {
  const speak = useCallback(() => {
    if (!("speechSynthesis" in globalThis) || text === "") return;
    speechSynthesis.cancel();
    speechSynthesis.speak(new SpeechSynthesisUtterance(text));
  }, [text]);
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.altKey && event.key.toLowerCase() === "r") speak();
    };
    globalThis.addEventListener("keydown", key);
    return () => globalThis.removeEventListener("keydown", key);
  }, [speak]);
  return speak;
}
