// What is said to those who listen instead of look: one polite region, never the same sentence twice in a row.

const pause = 700;
let timer = 0;
let last = '';

export function announce(sentence) {
  clearTimeout(timer);
  timer = setTimeout(() => {
    if (sentence === last) return;
    last = sentence;
    document.getElementById('announcer').textContent = sentence;
  }, pause);
}

/** A line on the screen for what just happened; it stays until the next one or until it is put away. */
export function notice(sentence) {
  const bar = document.getElementById('notice');
  document.getElementById('notice-words').textContent = sentence;
  bar.hidden = sentence === '';
}

export function setUpNotice() {
  document.getElementById('notice-away').addEventListener('click', () => notice(''));
}
