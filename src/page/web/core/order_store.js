// The order as it stands, with its past: a flat object of keys, the attached files, and a shelf for what the present choice has no
// place for (a block's collar while a pad is chosen), so that it comes back with the next change of mind.

const mergeWithin = 1500;  // ms: typing or dragging one value is one step of the past
const deepest = 300;

export class OrderStore extends EventTarget {
  #now = Object.freeze({order: {}, shelf: {}, attachments: {}});
  #past = [];
  #future = [];
  #burst = {name: '', at: 0};

  get order() { return this.#now.order; }
  get attachments() { return this.#now.attachments; }
  get shelf() { return this.#now.shelf; }
  get canUndo() { return this.#past.length > 0; }
  get canRedo() { return this.#future.length > 0; }

  /** Puts values in; an empty text, null or undefined takes the key out. Changes of one `burst` in a row are undone as one, those of a
      drag ("drag ...") however long it is held. */
  change(values, {burst = '', by = ''} = {}) {
    const order = {...this.order};
    for (const [key, value] of Object.entries(values)) {
      if (value === '' || value === null || value === undefined) delete order[key];
      else order[key] = value;
    }
    this.become({...this.#now, order}, {burst, by});
  }

  attach(key, file) {
    const attachments = {...this.attachments};
    if (file) attachments[key] = file;
    else delete attachments[key];
    this.become({...this.#now, attachments}, {});
  }

  /** A new state; `settle` has a say on what goes to the shelf. */
  become(state, {burst = '', by = ''} = {}) {
    const next = this.settle ? this.settle(state) : state;
    if (same(next, this.#now)) return;
    const soon = burst.startsWith('drag ') || Date.now() - this.#burst.at < mergeWithin;
    const merges = burst !== '' && burst === this.#burst.name && soon && this.#past.length > 0;
    if (!merges) {
      this.#past.push(this.#now);
      if (this.#past.length > deepest) this.#past.shift();
    }
    this.#burst = {name: burst, at: Date.now()};
    this.#future = [];
    this.#set(next, by);
  }

  /** Without a past: the page's first order. */
  begin(order) {
    this.#past = [];
    this.#future = [];
    this.#set({order, shelf: {}, attachments: {}}, '');
  }

  undo() { this.#step(this.#past, this.#future); }
  redo() { this.#step(this.#future, this.#past); }

  #step(from, to) {
    if (from.length === 0) return;
    to.push(this.#now);
    this.#burst = {name: '', at: 0};
    this.#set(from.pop(), '');
  }

  #set(state, by) {
    this.#now = Object.freeze(state);
    this.dispatchEvent(new CustomEvent('change', {detail: {by}}));
  }
}

function same(one, other) {
  return flatSame(one.order, other.order) && flatSame(one.attachments, other.attachments);
}

function flatSame(one, other) {
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => one[key] === other[key]);
}
