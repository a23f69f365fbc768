// Asks for pictures of the order as it changes: at most one question is under way, and of those that wait only the latest counts. An
// answer that is older than the picture on the screen is dropped; one that dawdles while a newer question waits is broken off.
import {preview} from './server.js';

const patience = 700;  // ms a question may hold up the next one

export class PreviewLoop {
  #asked = 0;      // serial number of the latest question put in
  #answered = 0;   // of the latest answer shown
  #waiting = null;
  #abort = null;
  #started = 0;
  #timer = 0;

  /** `show(answer, {serial, latest})` is called for every answer that counts, `wait()` whenever the picture is behind. */
  constructor({show, wait}) {
    this.show = show;
    this.wait = wait;
  }

  get isCurrent() { return this.#asked === this.#answered; }
  get serial() { return this.#asked; }

  ask(order, attachments, view) {
    this.#waiting = {order, attachments, view, serial: ++this.#asked};
    this.wait();
    if (!this.#abort) this.#next();
    else this.#hurry();
  }

  /** Nothing to ask: what is on the screen belongs to an older order. */
  drop() {
    this.#waiting = null;
    ++this.#asked;
    this.#abort?.abort();
  }

  #hurry() {
    clearTimeout(this.#timer);
    const left = patience - (performance.now() - this.#started);
    const abort = this.#abort;
    this.#timer = setTimeout(() => { if (this.#waiting && abort === this.#abort) abort.abort(); }, Math.max(0, left));
  }

  async #next() {
    while (this.#waiting) {
      const question = this.#waiting;
      this.#waiting = null;
      this.#abort = new AbortController();
      this.#started = performance.now();
      try {
        const answer = await preview(question.order, question.attachments, question.view, this.#abort.signal);
        this.#take(question, answer);
      } catch (error) {
        if (error.name !== 'AbortError') console.error(error);
      }
      this.#abort = null;
    }
  }

  #take(question, answer) {
    if (question.serial <= this.#answered || question.serial < this.#asked && !this.#waiting) return;
    this.#answered = question.serial;
    this.show(answer, {serial: question.serial, latest: question.serial === this.#asked, view: question.view});
  }
}
