// One field for every key of the order, made after its type. Each holds label, drawing, what is measured and how, and a place for
// what is wrong with it.
import {isBareNumber, readLength, stepOf, tidyLength, writeLength} from '../core/lengths.js';
import {readList, writeList} from '../core/list_text.js';
import {make, svgOf} from './dom.js';
import {fileField} from './file_field.js';
import {labelOf, plainWords} from './labels.js';
import {rowsField} from './rows_field.js';
import {drawingOf} from './tape_drawings.js';

const lengthTypes = new Set(['length', 'length_or_solid', 'length or solid', 'cutter', 'drill']);
const listed = {
  stations: ['Distance from the tip', 'Full width'],
  readings: ['Radius', 'Height'],
  size_rows: ['Name', 'Head girth', 'Crown diameter', 'Rise'],
};

export function isLength(key) {
  return lengthTypes.has(key.type);
}

/** What is wrong with a value before the core has seen it, or null: only units that are missing. */
export function slipOf(key, text) {
  if (!isLength(key) || typeof text !== 'string' || !isBareNumber(text)) return null;
  return {exit: 2, where: key.path, what: `“${text}” has no unit`, allowed: 'Say in what it is measured: cm, mm or in', units: ['cm', 'mm', 'in']};
}

/** A field: {element, key, show(order, attachments), fault(fault or null), hint(text), focus()}. `hint` says what holds while nothing is typed. `change(value, by)` is told what is typed. */
export function makeField(key, context) {
  const field = {key, element: null, show: () => {}, focus: () => {}};
  const described = [`${key.path}.help`, `${key.path}.fault`];
  const complaint = make('p', {class: 'fault', id: `${key.path}.fault`, hidden: true});
  const input = inputOf(key, context, described.join(' '));
  const drawing = drawingOf(key.path);
  const help = make('details', {class: 'how'}, make('summary', {}, isLength(key) || listed[key.type] ? 'How to measure' : 'What this is', make('span', {class: 'unseen'}, `: ${labelOf(key.path)}`)),
    make('p', {id: `${key.path}.help`}, helpOf(key)));
  const label = input.legend ? make('span', {class: 'label', id: `${key.path}.label`}, labelOf(key.path)) : make('label', {for: key.path}, labelOf(key.path));
  field.element = make('div', {class: `field${input.wide ? ' wide' : ''}${drawing ? '' : ' plain'}`, 'data-key': key.path},
    drawing ? make('div', {class: 'picture', 'aria-hidden': 'true'}, measurePicture(drawing)) : null,
    make('div', {class: 'words'}, label, input.element, complaint, help));
  field.show = input.show;
  field.hint = (text) => { if (input.element.placeholder !== undefined) input.element.placeholder = text || placeholderOf(key); };
  field.focus = () => {
    field.element.closest('details:not(.how)')?.setAttribute('open', '');
    (input.target ?? input.element).focus();
  };
  field.fault = (fault) => {
    const target = input.target ?? input.element;
    complaint.hidden = !fault;
    complaint.replaceChildren();
    if (fault) {
      complaint.append(...faultWords(key, fault, context));
      target.setAttribute('aria-invalid', 'true');
      const more = field.element.closest('details:not(.how)');
      if (more && !more.open) more.open = true;
    } else {
      target.removeAttribute('aria-invalid');
    }
  };
  return field;
}

export function measurePicture(markup) {
  const picture = svgOf(markup);
  picture.setAttribute('viewBox', '0 0 120 80');
  picture.setAttribute('focusable', 'false');
  return picture;
}

function faultWords(key, fault, context) {
  const parts = [make('strong', {}, sentence(fault.what)), ' ', sentence(fault.allowed ?? '')];
  for (const unit of fault.units ?? []) {
    parts.push(' ', make('button', {type: 'button', class: 'small', onclick: () => context.change(key.path, `${tidyLength(String(context.order()[key.path]))} ${unit}`)},
      unit, make('span', {class: 'unseen'}, `: ${labelOf(key.path)} is meant in ${unit}`)));
  }
  return parts;
}

export function sentence(text) {
  const tidy = String(text).trim();
  if (tidy === '') return '';
  // A figure and its unit stay on one line.
  const first = (tidy.charAt(0).toUpperCase() + tidy.slice(1)).replace(/(\d) (?=(?:mm|cm|in|g|kg|ms|C|Pa|N|W|m\/s|%|\d+\/\d+)(?![\w]))/g, '$1\u00a0');
  return /[.:!?]$/.test(first) ? first : `${first}.`;
}

function helpOf(key) {
  const range = key.least !== undefined && key.most !== undefined && !['text', 'file'].includes(key.type)
    ? ` Between ${key.least}${key.unit ? ` ${key.unit}` : ''} and ${key.most}${key.unit ? ` ${key.unit}` : ''}.` : '';
  const preset = presetOf(key);
  return `${key.help ?? ''}${range}${preset ? ` Unless you say so: ${preset}.` : ''}`;
}

/** The fault as the screen tells it. */
export function toldFault(fault, keys) {
  const key = keys.get(fault.where), paths = [...keys.keys()];
  if (key && /key is missing/.test(fault.what)) return {...fault, what: `${labelOf(key.path)} is still to be said`, allowed: key.example ? `For example: ${bare(key.example)}` : ''};
  return {...fault, what: plainWords(fault.what ?? '', fault.where ?? '', paths), allowed: plainWords(fault.allowed ?? '', fault.where ?? '', paths)};
}

const bare = (text) => String(text).replace(/^"(.*)"$/s, '$1').replace(/\\"/g, '"');

export function presetOf(key) {
  return key.preset === undefined || key.preset === null || key.preset === '' ? '' : bare(key.preset);
}

function placeholderOf(key) {
  if (presetOf(key)) return `${presetOf(key)} (as usual)`;
  return key.example ? `such as ${bare(key.example)}` : '';
}

function inputOf(key, context, describedBy) {
  if (listed[key.type]) return rowsField(key, listed[key.type], context, describedBy);
  if (key.type === 'file') return fileField(key, context, describedBy);
  if (key.type === 'boolean') return presetOf(key) ? tickBox(key, context, describedBy) : yesOrNo(key, context, describedBy);
  if (key.type === 'choices') return tickBoxes(key, context, describedBy);
  if (key.type === 'profile') return profileField(key, context, describedBy);
  if (key.choices?.length && key.type !== 'cutter') return choice(key, key.choices.map((word) => [word, word]), context, describedBy);
  return textField(key, context, describedBy);
}

// ---- typed ---------------------------------------------------------------------------------------------------------------------

function textField(key, context, describedBy) {
  const path = key.path;
  const isText = key.type === 'text';
  const isHats = key.type === 'hat_sizes' || key.type === 'hat sizes';
  const element = make('input', {
    id: path, type: 'text', autocomplete: 'off', spellcheck: isText ? 'true' : 'false', autocapitalize: 'off', maxlength: 2000,
    placeholder: isHats ? 'EU 55, EU 57, EU 59' : placeholderOf(key), 'aria-describedby': describedBy,
    class: isText || isHats ? 'long' : 'figure',
  });
  const read = () => {
    if (isHats) return writeList(element.value.split(/[,;]\s*/).map((word) => word.trim()).filter((word) => word !== ''));
    if (isText) return element.value;
    return isLength(key) ? tidyLength(element.value) : tidyNumber(element.value, key.type);
  };
  const write = (value) => (isHats ? readList(value).join(', ') : value ?? '');
  element.addEventListener('input', () => context.change(path, read(), path));
  element.addEventListener('change', () => { element.value = write(context.order()[path]); });
  if (key.type === 'length' || key.type === 'length_or_solid') element.addEventListener('keydown', (event) => step(event, element, key, context));
  return {
    element,
    show: (order) => {
      const value = write(order[path]);
      // While someone types here, their own spelling stays as long as it means the same.
      if (element.value !== value && !(document.activeElement === element && read() === (order[path] ?? ''))) element.value = value;
    },
  };
}

// "0,02" and "2 %" are fractions too.
function tidyNumber(text, type) {
  const tidy = text.trim().replace(/(\d),(\d)/g, '$1.$2');
  const percent = type === 'fraction' ? tidy.match(/^(\d+(?:\.\d+)?) ?%$/) : null;
  return percent ? String(Number((Number(percent[1]) / 100).toFixed(6))) : tidy;
}

// Arrow up and down move a length by a millimetre or a sixteenth of an inch; with Shift by ten.
function step(event, element, key, context) {
  if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
  const now = readLength(element.value);
  if (!now) return;
  event.preventDefault();
  const by = stepOf(now.unit) * (event.shiftKey ? 10 : 1) * (event.key === 'ArrowUp' ? 1 : -1);
  const text = writeLength(Math.max(0, now.mm + by), now.unit);
  element.value = text;
  context.change(key.path, text, key.path);
}

// ---- chosen --------------------------------------------------------------------------------------------------------------------

function choice(key, pairs, context, describedBy) {
  const preset = presetOf(key);
  const element = make('select', {id: key.path, 'aria-describedby': describedBy, onchange: () => context.change(key.path, element.value)},
    make('option', {value: ''}, preset ? `${preset} (as usual)` : 'not said'),
    pairs.map(([word, text]) => make('option', {value: word}, text)));
  return {element, show: (order) => {
    const value = order[key.path] === undefined ? '' : String(order[key.path]);
    if (value !== '' && ![...element.options].some((option) => option.value === value)) element.append(make('option', {value}, value));
    element.value = value;
  }};
}

function yesOrNo(key, context, describedBy) {
  return choice(key, [['true', 'yes'], ['false', 'no']], context, describedBy);
}

function tickBox(key, context, describedBy) {
  const usually = presetOf(key) === 'true';
  const element = make('input', {type: 'checkbox', id: key.path, 'aria-describedby': describedBy,
    onchange: () => context.change(key.path, element.checked === usually ? '' : String(element.checked))});
  return {element, show: (order) => { element.checked = order[key.path] === undefined ? usually : String(order[key.path]) === 'true'; }};
}

function tickBoxes(key, context, describedBy) {
  const boxes = (key.choices ?? []).map((word) => make('input', {type: 'checkbox', id: `${key.path}.${word}`, value: word, onchange: () => tell()}));
  const tell = () => context.change(key.path, writeList(boxes.filter((box) => box.checked).map((box) => box.value)));
  const element = make('div', {class: 'ticks', role: 'group', id: key.path, tabindex: -1, 'aria-labelledby': `${key.path}.label`, 'aria-describedby': describedBy},
    boxes.map((box) => make('label', {for: box.id}, box, ` ${box.value}`)));
  return {element, legend: true, show: (order) => {
    const chosen = readList(order[key.path]);
    for (const box of boxes) box.checked = chosen.includes(box.value);
  }};
}

const shelves = {'shape.profile': 'shapes', 'cloth.name': 'cloths', 'print.material': 'materials', 'mill.material': 'materials', 'print.printer': 'printers'};

function profileField(key, context, describedBy) {
  const all = context.workshop[shelves[key.path]];
  if (!all) return textField(key, context, describedBy);
  const fits = (one) => (key.path === 'print.material' ? one.printed !== false : key.path === 'mill.material' ? one.milled !== false : true);
  const input = choice(key, all.filter(fits).map((one) => [one.name, one.name]), context, describedBy);
  const summary = make('p', {class: 'summary'});
  const element = make('div', {class: 'profile'}, input.element, summary);
  return {element, target: input.element, show: (order) => {
    input.show(order);
    summary.textContent = all.find((one) => one.name === (order[key.path] || presetOf(key)))?.summary ?? '';
  }};
}
