// The order's fields in the order of work: what a milliner needs stands in front, the rest of each group behind "More".
import {followsFromPattern, hasPlace, kindOf, wayOf} from '../core/ways.js';
import {make, pictureOf} from './dom.js';
import {makeField, measurePicture} from './fields.js';
import {offers} from './labels.js';
import {waysDrawn} from './tape_drawings.js';

// Tables and keys of a group that stand in front, in this order. What the core knows beyond that goes to "More" of the table's group.
const front = {
  measures: ['measure.head_girth', 'measure.crown_diameter', 'measure.rise'],
  shape: ['shape.profile', 'shape.edge_radius', 'shape.dome', 'cloth.name', 'cloth.thickness', 'pattern.panels'],
  form: ['form.kind', 'form.wall', 'form.collar'],
  making: ['print.material', 'print.printer', 'print.bed'],
};
const groupOfTable = {measure: 'measures', panel_lengths: 'begin', pattern: 'begin', dish: 'begin', shape: 'shape', cloth: 'shape', form: 'form', vents: 'form', print: 'making', puzzle: 'form', stack: 'making', marks: 'form',
  press: 'making', mill: 'making', mesh: 'making', draft: 'pattern', band: 'pattern', cover: 'pattern', sizes: 'pattern'};
// Where the rest of a table's keys belong to another group than the table.
const groupOfKey = {'pattern.length_along': 'shape', 'pattern.seam_tape': 'shape', 'pattern.seam_tape_thickness': 'shape', 'pattern.panels': 'shape'};
const switched = {form: ['vents', 'puzzle', 'marks'], making: ['press', 'mill', 'stack'], pattern: ['draft', 'band', 'cover', 'sizes']};
const shownFirst = {vents: ['vents.diameter', 'vents.spacing'], press: ['press.heat', 'press.iron', 'press.press_cloth'], mill: ['mill.material', 'mill.tool', 'mill.rough_tool', 'mill.drill', 'mill.stock_sheets', 'mill.stock_size', 'mill.travel'],
  puzzle: ['puzzle.pieces', 'puzzle.cap'], draft: ['draft.pieces']};

const wayKeysShown = {
  stations: ['pattern.stations', 'pattern.panels', 'pattern.seam_allowance', 'pattern.includes_allowance'],
  outline: ['pattern.file', 'pattern.panels', 'pattern.fold', 'pattern.seam_allowance', 'pattern.includes_allowance', 'pattern.layer', 'pattern.drawing_unit'],
  lengths: ['panel_lengths.top', 'panel_lengths.under'],
  discs: ['pattern.top_diameter', 'pattern.ring_diameter', 'pattern.ring_opening', 'pattern.seam_allowance', 'pattern.includes_allowance'],
  dish: ['dish.readings', 'dish.file', 'dish.gap'],
  measures: [],
};
const panelWays = ['stations', 'outline', 'lengths'];
const wayWords = {
  measures: ['Head and crown', 'Three measures with the tape'],
  panel: ['A drafted panel', 'The form follows from your pattern'],
  discs: ['Disc and ring', 'A round top and a ring, sewn together'],
  dish: ['A dish', 'A pad that lies in the dish you press in'],
};
const panelWords = {stations: 'Widths, measured down the panel', outline: 'A drawing of it: SVG or DXF', lengths: 'Two lengths, tip to edge and edge to head line'};

/** context: what makeField wants, and goWay(way), setTable(name, on). */
export class Groups {
  fields = new Map();
  #switches = new Map();
  #seen = new Map();

  constructor(context) {
    this.context = context;
    for (const key of context.workshop.keys) this.fields.set(key.path, makeField(key, context));
    this.#begin();
    for (const group of ['measures', 'shape', 'form', 'making', 'pattern']) this.#fill(group);
    document.getElementById('name-place').append(this.fields.get('name')?.element ?? '');
  }

  #place(group) { return document.getElementById(`group-${group}`); }

  #keysOf(group) {
    return [...this.fields.keys()].filter((path) => path !== 'name' && (groupOfKey[path] ?? groupOfTable[tableOf(path)] ?? 'making') === group);
  }

  #begin() {
    const place = this.#place('begin');
    const radios = Object.entries(wayWords).map(([way, [title, words]]) => make('label', {class: 'way', for: `begin.${way}`},
      make('input', {type: 'radio', name: 'begin', id: `begin.${way}`, value: way, onchange: () => this.context.goWay(way === 'panel' ? 'stations' : way)}),
      make('span', {class: 'way-picture', 'aria-hidden': 'true'}, measurePicture(waysDrawn[way])), make('span', {class: 'way-title'}, title), make('span', {class: 'way-words'}, words)));
    this.panelChoice = make('fieldset', {class: 'sub', hidden: true}, make('legend', {}, 'What you have of the panel'),
      panelWays.map((way) => make('label', {for: `begin.${way}`}, make('input', {type: 'radio', name: 'begin-panel', id: `begin.${way}`, value: way, onchange: () => this.context.goWay(way)}), ` ${panelWords[way]}`)));
    this.wayFields = make('div', {class: 'fields'});
    const rest = this.#keysOf('begin').filter((path) => !Object.values(wayKeysShown).flat().includes(path));
    place.append(make('fieldset', {class: 'ways'}, make('legend', {class: 'unseen'}, 'What do you begin from?'), radios), this.panelChoice, this.wayFields, this.#more('begin', rest));
  }

  #fill(group) {
    const place = this.#place(group), inFront = front[group] ?? [], tables = switched[group] ?? [];
    place.append(make('div', {class: 'fields'}, inFront.map((path) => this.fields.get(path)?.element)));
    if (group === 'shape') this.#gallery(place);
    for (const table of tables) place.append(this.#table(table));
    const rest = this.#keysOf(group).filter((path) => !inFront.includes(path) && !tables.includes(tableOf(path)));
    if (rest.length > 0) place.append(this.#more(group, rest));
  }

  #more(group, paths) {
    const titles = {begin: 'More about the pattern', measures: 'More about the measures', shape: 'More about shape and cloth', form: 'More about the form', making: 'More about printing and files'};
    return make('details', {class: 'more'}, make('summary', {}, titles[group] ?? 'More'), make('div', {class: 'fields'}, paths.map((path) => this.fields.get(path)?.element)));
  }

  #table(table) {
    const paths = [...this.fields.keys()].filter((path) => tableOf(path) === table), first = shownFirst[table] ?? paths;
    const rest = paths.filter((path) => !first.includes(path));
    const box = make('input', {type: 'checkbox', id: table, onchange: () => this.context.setTable(table, box.checked)});
    const inside = make('div', {class: 'inside'}, make('div', {class: 'fields'}, first.map((path) => this.fields.get(path)?.element)),
      rest.length === 0 ? null : make('details', {class: 'more'}, make('summary', {}, 'More of this'), make('div', {class: 'fields'}, rest.map((path) => this.fields.get(path)?.element))));
    const element = make('div', {class: 'table', 'data-table': table}, make('label', {class: 'switch', for: table}, box, ` ${offers[table] ?? table}`), inside);
    this.#switches.set(table, {box, inside, element});
    return element;
  }

  #gallery(place) {
    const shapes = this.context.workshop.shapes ?? [];
    this.shapeButtons = shapes.filter((shape) => shape.svg).map((shape) => make('button', {type: 'button', class: 'shape', 'aria-pressed': 'false', 'data-shape': shape.name, title: shape.summary,
      onclick: () => this.context.change('shape.profile', shape.name)}, pictureOf(shape.svg, '', ''), make('span', {}, shape.name)));
    this.fields.get('shape.profile')?.element.append(make('div', {class: 'shapes', role: 'group', 'aria-label': 'Crown shapes, drawn'}, this.shapeButtons));
    this.fields.get('shape.profile')?.element.classList.add('wide');
    void place;
  }

  show(order, attachments) {
    const way = wayOf(order, attachments);
    for (const field of this.fields.values()) field.show(order, attachments);
    this.#showWay(way, order);
    for (const [table, {box, inside, element}] of this.#switches) {
      const on = tableStands(table, order);
      box.checked = on;
      inside.hidden = !on;
      element.hidden = !hasPlace(table, order);
    }
    for (const [path, field] of this.fields) this.#setSeen(path, field, this.#isSeen(path, order, way));
    const profile = order['shape.profile'] ?? 'soft-dome';
    for (const button of this.shapeButtons ?? []) button.setAttribute('aria-pressed', String(button.dataset.shape === profile));
    for (const details of document.querySelectorAll('details.more')) details.hidden = ![...details.querySelectorAll('.field')].some((field) => !field.hidden);
  }

  #showWay(way, order) {
    if (this.way !== way) {
      this.way = way;
      const shown = wayKeysShown[way];
      const panels = this.fields.get('pattern.panels')?.element;
      if (panels && !shown.includes('pattern.panels')) this.#place('shape').querySelector('.fields').append(panels);
      this.wayFields.append(...Object.values(wayKeysShown).flat().filter((path, i, all) => all.indexOf(path) === i && (path !== 'pattern.panels' || shown.includes(path)))
        .sort((one, other) => rank(shown, one) - rank(shown, other)).map((path) => this.fields.get(path)?.element).filter(Boolean));
    }
    const radio = panelWays.includes(way) ? 'panel' : way;
    const box = document.getElementById(`begin.${radio}`);
    if (box) box.checked = true;
    this.panelChoice.hidden = radio !== 'panel';
    if (radio === 'panel') document.getElementById(`begin.${way}`).checked = true;
    void order;
  }

  #isSeen(path, order, way) {
    if (!hasPlace(path, order)) return false;
    const ofWays = Object.values(wayKeysShown).some((paths) => paths.includes(path));
    if (ofWays && path !== 'pattern.panels' && !wayKeysShown[way].includes(path)) return path === 'pattern.seam_allowance' && path in order || way === 'measures' && path === 'pattern.seam_allowance' && 'draft' in order;
    if (way === 'dish' && path === 'dish.file' && 'dish.readings' in order && order['dish.readings'] !== '') return true;
    if (path.startsWith('shape.') && followsFromPattern(path, order)) return false;
    if (kindOf(order) === 'pad' && path === 'pattern.panels') return path in order;
    return true;
  }

  #setSeen(path, field, seen) {
    if (this.#seen.get(path) === seen) return;
    this.#seen.set(path, seen);
    field.element.hidden = !seen;
  }
}

const rank = (shown, path) => (shown.includes(path) ? shown.indexOf(path) : 100);

export function tableOf(path) {
  return path.includes('.') ? path.slice(0, path.indexOf('.')) : '';
}

export function tableStands(table, order) {
  return table in order || Object.keys(order).some((key) => key.startsWith(`${table}.`));
}
