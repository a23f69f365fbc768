// Taking the files: each by itself or all in one zip. The final form is made only now, at the tolerance the order asks for.
import {take} from '../core/server.js';
import {announce} from './announce.js';
import {make} from './dom.js';
import {sentence} from './fields.js';

/** Hands a file to the browser to be saved. */
export function hand(blob, name) {
  const address = URL.createObjectURL(blob);
  const link = make('a', {href: address, download: name});
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** context: order(), run(), attachments(), showFault(fault); `run` is the order with all its sizes */
export class TakeFiles {
  #abort = null;
  #shown = '';

  constructor(place, context) {
    this.context = context;
    this.list = make('ul', {class: 'makes'});
    this.all = make('button', {type: 'button', id: 'take-all', class: 'strong', onclick: () => this.#take(null, 'all files')}, 'Take all files as one zip');
    this.status = make('p', {class: 'status', role: 'status'});
    this.stop = make('button', {type: 'button', class: 'small', hidden: true, onclick: () => this.#abort?.abort()}, 'Stop');
    this.problem = make('p', {class: 'fault', hidden: true});
    place.append(this.all, make('div', {class: 'progress'}, this.status, this.stop), this.problem, make('h3', {class: 'quiet'}, 'Or one by one'), this.list);
  }

  show(makes) {
    const text = JSON.stringify(makes ?? []);
    if (text === this.#shown) return;
    this.#shown = text;
    this.list.replaceChildren(...(makes ?? []).map((one) => make('li', {}, make('button', {type: 'button', class: 'file', 'data-ending': one.ending, onclick: () => this.#take(one.ending, one.what)},
      make('span', {class: 'what'}, one.what), ' ', make('span', {class: 'ending'}, one.ending)))));
  }

  /** Whether there is anything to take: not while the order is wrong. */
  allow(can) {
    for (const button of [this.all, ...this.list.querySelectorAll('button')]) button.setAttribute('aria-disabled', String(!can));
    this.can = can;
  }

  takeRun() { return this.#take(null, 'every size', this.context.run()); }

  async #take(ending, what, order = this.context.order()) {
    if (this.#abort) return;
    if (this.can === false) {
      this.problem.textContent = 'The order is not right yet; what is wrong stands beside it.';
      this.problem.hidden = false;
      return;
    }
    this.#abort = new AbortController();
    this.problem.hidden = true;
    this.stop.hidden = false;
    this.status.textContent = `Making ${what}; the finished form takes some seconds ...`;
    this.status.classList.add('busy');
    try {
      const taken = await take(order, this.context.attachments(), ending, this.#abort.signal);
      if (taken.fault) this.#refused(taken.fault);
      else {
        hand(taken.blob, taken.name);
        this.status.textContent = `${taken.name} is with your browser's downloads.`;
      }
    } catch (error) {
      if (error.name !== 'AbortError') throw error;
      this.status.textContent = 'Stopped. Nothing was taken.';
    } finally {
      this.#abort = null;
      this.stop.hidden = true;
      this.status.classList.remove('busy');
    }
  }

  #refused(fault) {
    this.status.textContent = '';
    this.problem.textContent = [sentence(fault.what), sentence(fault.allowed ?? '')].join(' ').trim();
    this.problem.hidden = false;
    announce(this.problem.textContent);
    this.context.showFault(fault);
  }
}
