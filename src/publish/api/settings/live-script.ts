// The one script of the settings: while somebody types, it asks for the week anew and puts in what the server wrote. Without
// it the button does the same.

export const LIVE_SCRIPT = `'use strict';
(() => {
  const form = document.querySelector('form[data-week]');
  const week = document.getElementById('week');
  if (!form || !week) return;
  let timer = 0;
  let asked = null;
  const ask = async () => {
    if (asked) asked.abort();
    asked = new AbortController();
    try {
      const body = new URLSearchParams(new FormData(form));
      const answer = await fetch(form.dataset.week, { method: 'POST', body, signal: asked.signal, credentials: 'same-origin' });
      week.hidden = !answer.ok;
      if (answer.ok) week.innerHTML = await answer.text();
    } catch (fault) {
      // What is not known is not shown: the week of before would be taken for the one of now.
      if (fault.name !== 'AbortError') week.hidden = true;
    }
  };
  form.addEventListener('input', () => {
    week.hidden = true;
    clearTimeout(timer);
    timer = setTimeout(ask, 350);
  });
})();
`;
