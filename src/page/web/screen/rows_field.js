// A list of rows, typed into a small table or pasted as text.
import {isBareNumber, tidyLength} from '../core/lengths.js';
import {readRows, writeRows} from '../core/list_text.js';
import {make} from './dom.js';
import {labelOf} from './labels.js';

export function rowsField(key, headings, context, describedBy) {
  const path = key.path;
  const body = make('tbody');
  const table = make('table', {class: 'rows'}, make('thead', {}, make('tr', {}, headings.map((text) => make('th', {scope: 'col'}, text)), make('th', {scope: 'col'}, make('span', {class: 'unseen'}, 'Take away')))), body);
  const text = make('textarea', {id: path, rows: 5, spellcheck: 'false', autocapitalize: 'off', 'aria-describedby': describedBy, oninput: () => takeText()});
  const problem = make('p', {class: 'fault', hidden: true}, 'These rows cannot be read: one row a line, its figures parted by a tab, a semicolon or two spaces.');
  const element = make('div', {class: 'list', role: 'group', 'aria-labelledby': `${path}.label`}, table,
    make('button', {type: 'button', class: 'small', onclick: () => addRow()}, 'Add a row'),
    make('details', {class: 'as-text'}, make('summary', {}, 'Write or paste all rows as text'), make('label', {for: path, class: 'unseen'}, `${labelOf(path)}, as text`), text, problem));
  let shown = null;

  const cells = () => [...body.rows].map((row) => [...row.querySelectorAll('input')].map((input) => input.value));
  const tidy = (rows) => rows.map((row) => row.map((cell, i) => (isName(i) ? cell.trim() : tidyLength(cell)))).map(withoutEmptyEnd).filter((row) => row.some((cell) => cell !== ''));
  const isName = (column) => headings.length === 4 && column === 0;
  const withoutEmptyEnd = (row) => (headings.length === 4 && row[3] === '' ? row.slice(0, 3) : row);

  function told(rows) {
    shown = writeRows(tidy(rows));
    context.change(path, shown, path);
  }

  function rowOf(values, number) {
    const inputs = headings.map((heading, column) => make('input', {type: 'text', class: 'figure', id: `${path}.${number}.${column}`, value: values[column] ?? '', autocomplete: 'off', spellcheck: 'false',
      'aria-label': `${heading}, row ${number + 1}`, oninput: () => { told(cells()); text.value = asText(); mark(); }}));
    return make('tr', {}, inputs.map((input) => make('td', {}, input)),
      make('td', {}, make('button', {type: 'button', class: 'small', 'aria-label': `Take away row ${number + 1}`, onclick: (event) => {
        event.currentTarget.closest('tr').remove();
        told(cells());
        fill(cells());
      }}, '×')));
  }

  const asText = () => cells().map((row) => row.join('\t')).join('\n');

  function mark() {
    for (const input of body.querySelectorAll('input')) {
      const named = headings.length === 4 && input.id.endsWith('.0');
      if (!named && input.value.trim() !== '' && isBareNumber(input.value)) input.setAttribute('aria-invalid', 'true');
      else input.removeAttribute('aria-invalid');
    }
  }

  function fill(rows) {
    body.replaceChildren(...rows.map(rowOf));
    if (document.activeElement !== text) text.value = asText();
    mark();
  }

  function addRow() {
    body.append(rowOf([], body.rows.length));
    body.rows[body.rows.length - 1].querySelector('input').focus();
  }

  function takeText() {
    const rows = readRows(text.value);
    problem.hidden = rows !== null;
    if (rows === null) return;
    told(rows);
    fill(rows);
  }

  return {element, target: text, wide: true, legend: true, show: (order) => {
    const value = order[path] ?? '';
    if (value === shown) return;
    shown = value;
    const rows = readRows(value);
    if (rows) fill(rows);
    else text.value = value;
  }};
}
