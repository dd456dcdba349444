/** Asks the browser to keep this build for use without a network. From a stick there is nothing to keep. */
export async function keepForOffline(): Promise<void> {
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  try {
    await navigator.serviceWorker.register("/service-worker.js");
  } catch {
    // the page works all the same while the network is there
  }
}
