// Stands before the files while the order is a run of sizes: which one size is shown and taken, and how the whole run is made.
import {asMeasured, pickedOf, sizesOf} from '../core/sizes.js';
import {make} from './dom.js';

export class SizePicker {
  #shown = '';

  /** context: order(), pick(name) */
  constructor(place, context) {
    this.select = make('select', {id: 'size-picked', onchange: () => context.pick(this.select.value)});
    this.command = make('code');
    this.element = make('div', {class: 'run', hidden: true},
      make('label', {for: 'size-picked'}, 'The size that is shown and taken here'), this.select,
      make('p', {}, 'This order is a run of sizes. The page makes one of them at a time; the whole run, a folder a size and a table of them all, comes from the saved order with this line in a terminal: ', this.command));
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
    this.command.textContent = `crownwright make ${fileOf(order.name ?? '')}`;
  }
}

// As the program names the file; a name it would spell in another way stands for itself.
function fileOf(name) {
  const plain = name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '');
  return `${plain || 'order'}.toml`;
}
