// Has this page kept by the worker, and asks for a newer worker at every visit with signal.

function keepThisPage(): void {
  if (root.dataset['copy'] !== undefined) return;
  // Through the worker, which keeps what it passes on.
  const urls = [location.href, ...[...document.scripts].map(({ src }) => src)];
  for (const url of urls)
    fetch(url, { headers: { accept: url === location.href ? 'text/html' : '*/*' } }).catch(() => {});
}

if ('serviceWorker' in navigator) {
  navigator.serviceWorker.addEventListener('controllerchange', keepThisPage);
  navigator.serviceWorker
    .register('/sw.js', { updateViaCache: 'none' })
    .then((registration) => registration.update())
    .catch(() => {});
}
