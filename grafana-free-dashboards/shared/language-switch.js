// The button in the foot that changes the language. The choice stays in a cookie, which the server reads.

const YEAR_SECONDS = 365 * 24 * 3600;

const button = document.getElementById('language');
button.addEventListener('click', () => {
  document.cookie = `language=${button.lang}; path=/; max-age=${YEAR_SECONDS}; samesite=lax`;
  navigator.serviceWorker?.controller?.postMessage('language');
  globalThis.location.reload();
});
