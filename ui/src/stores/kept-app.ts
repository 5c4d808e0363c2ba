// The app's own files, kept for when the server cannot be reached (shell/service-worker.js).

/** Once the page stands. Over the home network without encryption a browser has no service worker: then nothing is kept. */
export function keepApp(): void {
  if (!('serviceWorker' in navigator)) return;
  // A browser that refuses it, in a private window, is no error.
  navigator.serviceWorker.register('/sw.js').catch(() => {});
}
