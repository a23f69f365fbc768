// The table the form stands on: the buttons and sliders beside the picture, and the keys that work inside it.

const keys = {
  ArrowLeft: (form) => form.turn(-10, 0),
  ArrowRight: (form) => form.turn(10, 0),
  ArrowUp: (form) => form.turn(0, 10),
  ArrowDown: (form) => form.turn(0, -10),
  '+': (form) => form.near(0.87),
  '=': (form) => form.near(0.87),
  '-': (form) => form.near(1.15),
  Home: (form) => form.look('slant'),
};

/** `form` may be null where the browser draws nothing in 3D. */
export function setUpTable(form, {setView}) {
  const byId = (id) => document.getElementById(id);
  const cutBox = byId('cut'), cutAt = byId('cut-at'), apart = byId('apart');
  for (const button of document.querySelectorAll('[data-look]')) button.addEventListener('click', () => form?.look(button.dataset.look));
  byId('nearer').addEventListener('click', () => form?.near(0.8));
  byId('farther').addEventListener('click', () => form?.near(1.25));
  const cut = () => {
    cutAt.disabled = !cutBox.checked;
    form?.cut(cutBox.checked ? Number(cutAt.value) / 100 : null);
  };
  cutBox.addEventListener('change', cut);
  cutAt.addEventListener('input', cut);
  apart.addEventListener('input', () => form?.takeApart(Number(apart.value) / 100));
  for (const radio of document.querySelectorAll('input[name=view]')) {
    radio.addEventListener('change', () => {
      if (!radio.checked) return;
      if (radio.value === 'form') apart.disabled = true;
      form?.takeApart(radio.value === 'parts' ? Number(apart.value) / 100 : 0);
      setView(radio.value);
    });
  }
  byId('form-stage').addEventListener('keydown', (event) => {
    const act = keys[event.key];
    if (!form || !act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act(form);
  });
  cut();
}
