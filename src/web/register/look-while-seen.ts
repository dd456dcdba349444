const LOOK_AGAIN_MS = 60_000;
const LONGEST_WAIT_MS = 15 * 60_000;

/** What of the document is asked: whether somebody can see it, and word when that changes. */
type SeenPage = Pick<Document, "visibilityState" | "addEventListener" | "removeEventListener">;

/**
 * Looks at once, then once a minute while the page is in sight, and at once when it comes back; a page nobody sees asks
 * nothing, and a look that failed waits twice as long, up to a quarter of an hour. Gives what ends it.
 */
export function lookWhileSeen(look: () => Promise<boolean>, page: SeenPage = document): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let [failed, looking, ended] = [0, false, false];
  const again = async (): Promise<void> => {
    clearTimeout(timer);
    if (ended || looking || page.visibilityState === "hidden") return;
    looking = true;
    const answered = await look().catch(() => false);
    looking = false;
    failed = answered ? 0 : failed + 1;
    if (!ended) timer = setTimeout(() => void again(), Math.min(LOOK_AGAIN_MS * 2 ** failed, LONGEST_WAIT_MS));
  };
  const turned = (): void => void again();
  page.addEventListener("visibilitychange", turned);
  void again();
  return () => {
    ended = true;
    clearTimeout(timer);
    page.removeEventListener("visibilitychange", turned);
  };
}
