// Stands before the files while the order is a run of sizes: which one size is shown and taken, and the whole run in one zip.
import {asMeasured, pickedOf, sizesOf} from '../core/sizes.js';
import {make} from './dom.js';

export class SizePicker {
  #shown = '';

  /** context: pick(name), takeAll() */
  constructor(place, context) {
    this.select = make('select', {id: 'size-picked', onchange: () => context.pick(this.select.value)});
    this.all = make('button', {type: 'button', id: 'take-run', onclick: () => context.takeAll()}, 'Take the whole run as one zip');
    this.element = make('div', {class: 'run', hidden: true},
      make('label', {for: 'size-picked'}, 'The size that is shown and taken here'), this.select,
      make('p', {}, 'This order is a run of sizes. One of them is shown at a time; the zip of the whole run holds a folder for each size and a table of them all.'), this.all);
    place.prepend(this.element);
  }

  show(order, name) {
    const sizes = sizesOf(order), text = JSON.stringify(sizes.map((one) => one.name));
    this.element.hidden = sizes.length === 0;
    if (text !== this.#shown) {
      this.#shown = text;
      this.select.replaceChildren(...sizes.map((one) => make('option', {value: one.name}, one.name === asMeasured ? 'as under Measures' : one.name)));
    }
    if (sizes.length > 0) this.select.value = pickedOf(order, name).name;
  }
}
