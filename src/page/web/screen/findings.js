// What the core has to say about the order, in plain words: verdicts with what to change, the fit chart, the form's own figures.
import {writeLength} from '../core/lengths.js';
import {dismiss, make, pictureOf, svgOf} from './dom.js';
import {sentence} from './fields.js';

const titles = {fit: 'Fit', heat: 'Heat', steam: 'Steam', press: 'Under the press', stiffness: 'Under the press', print: 'Printing', release: 'Taking off', mill: 'Milling', vents: 'Vents', pattern: 'Pattern',
  parts: 'In parts', stack: 'Sheets', dish: 'Dish', mind: 'Mind'};
const toneWords = {good: 'Good', mind: 'Mind', bad: 'Will not do'};
const signs = {
  good: '<circle cx="12" cy="12" r="10"/><path d="M7 12.5l3.5 3.5L17 9"/>',
  mind: '<path d="M12 2.5L22.5 21H1.5Z"/><path d="M12 9v5.5M12 17.5v.6"/>',
  bad: '<path d="M8 1.5h8l6.5 6.5v8L16 22.5H8L1.5 16V8Z"/><path d="M8 8l8 8M16 8l-8 8"/>',
};

function signOf(tone) {
  const sign = svgOf(signs[tone]);
  sign.setAttribute('viewBox', '0 0 24 24');
  sign.setAttribute('class', 'sign');
  sign.setAttribute('aria-hidden', 'true');
  return sign;
}

/** context: change(values, what) applies what is tried; focusField(key); plain(words) puts an order file's words into the screen's */
export class Findings {
  #chart = null;
  #chartText = '';

  constructor({cards, chart, figures, fault, short}, context) {
    const dialog = document.getElementById('chart-dialog'), place = dialog.querySelector('.chart-place');
    document.getElementById('chart-large').addEventListener('click', () => {
      place.replaceChildren(this.#chart.cloneNode());
      dialog.showModal();
    });
    document.getElementById('chart-close').addEventListener('click', () => dialog.close());
    dialog.addEventListener('close', () => place.replaceChildren());
    Object.assign(this, {cards, chartPlace: chart, figuresPlace: figures, faultPlace: fault, shortPlace: short, context});
  }

  show(answer) {
    this.faultPlace.hidden = true;
    this.faultPlace.replaceChildren();
    const list = [];
    if (answer.fit && answer.fit.verdict !== 'none') list.push({about: 'fit', tone: answer.fit.verdict, words: answer.fit.words, try: answer.fit.try});
    list.push(...(answer.verdicts ?? []));
    if (answer.fit?.verdict === 'none' && answer.fit.words) list.push({about: 'fit', tone: 'mind', words: answer.fit.words, try: answer.fit.try});
    list.push(...(answer.warnings ?? []).map((words) => ({about: 'mind', tone: 'mind', words: this.context.plain(words)})));
    const order = {bad: 0, mind: 1, good: 2};
    list.sort((one, other) => (order[one.tone] ?? 1) - (order[other.tone] ?? 1));
    this.#keepFocus(() => this.cards.replaceChildren(...list.map((one) => this.#card(one))));
    this.#showShort(list);
    this.#showChart(answer.fit?.chart_svg ?? null);
    this.#showFigures(answer);
    return list;
  }

  // Where the verdicts stand far below the form: in one line beside it, as the way to them.
  #showShort(list) {
    const named = (tone) => [...new Set(list.filter((one) => (toneWords[one.tone] ? one.tone : 'mind') === tone).map((one) => titles[one.about] ?? one.about))];
    const bad = named('bad'), mind = named('mind').filter((title) => title !== titles.mind), good = list.filter((one) => one.tone === 'good').length;
    this.#short([bad.length > 0 ? `Will not do: ${bad.join(', ')}` : '', mind.length > 0 ? `Mind: ${mind.join(', ')}` : '', good > 0 ? `${good} good` : ''].filter(Boolean).join('. ') || 'Nothing to mind', bad.length > 0 ? 'bad' : mind.length > 0 ? 'mind' : 'good');
  }

  #short(words, tone) {
    this.shortPlace.className = tone;
    this.shortPlace.replaceChildren(signOf(tone), make('a', {href: '#findings'}, `${words}.`));
  }

  // A button that was pressed is gone with its card; the keyboard stays in the place.
  #keepFocus(replace) {
    const inside = this.cards.contains(document.activeElement);
    replace();
    if (inside) this.cards.focus();
  }

  #card({about, tone, words, try: tries}) {
    const known = toneWords[tone] ? tone : 'mind';
    return make('li', {class: `card ${known}`, 'data-about': about}, signOf(known),
      make('div', {}, make('h3', {}, titles[about] ?? about.charAt(0).toUpperCase() + about.slice(1), about === 'mind' ? null : make('span', {class: 'tone'}, toneWords[known])),
        make('p', {}, sentence(words)),
        (tries ?? []).length === 0 ? null : make('div', {class: 'tries'}, make('span', {class: 'tries-lead'}, 'What to change:'), tries.map((one) => this.#tryButton(one)))));
  }

  #tryButton(one) {
    return make('button', {type: 'button', class: 'try', onclick: () => this.context.change(one.order, one.words)}, sentence(one.words).replace(/\.$/, ''));
  }

  /** An order that cannot be made: said at the top, with ways to the fields it is about: [key, label] each. */
  fault(fault, links) {
    const ways = links.map(([key, label]) => make('button', {type: 'button', class: 'small', onclick: () => this.context.focusField(key)}, `Go to ${label}`));
    this.faultPlace.replaceChildren(signOf('bad'), make('div', {}, make('h3', {}, fault.exit === 3 ? 'No such form exists' : 'Not yet an order'),
      make('p', {}, sentence(fault.what)), fault.allowed ? make('p', {}, sentence(fault.allowed)) : null,
      (fault.try ?? []).length === 0 ? null : make('div', {class: 'tries'}, make('span', {class: 'tries-lead'}, 'What to change:'), fault.try.map((one) => this.#tryButton(one))), make('div', {class: 'ways-out'}, ways)));
    this.faultPlace.hidden = false;
    this.#short(fault.exit === 3 ? 'No such form exists' : 'Not yet an order', 'bad');
  }

  #showChart(text) {
    if (text === this.#chartText) return;
    this.#chartText = text;
    const last = this.#chart;
    this.#chart = text ? pictureOf(text, 'Fit chart: the strain of the cloth along the form, from the tip to the head line. The verdict is told in words above it.', 'chart') : null;
    this.chartPlace.hidden = !this.#chart;
    if (this.#chart) this.chartPlace.querySelector('.chart-place').append(this.#chart);
    dismiss(last);
  }

  #showFigures({figures, unit}) {
    const rows = [
      ['Crown diameter', figures.crown_diameter], ['Head girth', figures.head_girth], ['Rise', figures.rise], ['Dome', figures.dome], ['Edge radius', figures.edge_radius],
      ['Edge radius below', figures.under_edge_radius], ['Collar', figures.collar], ['Wall', figures.wall], ['Tip to edge, along the form', figures.top_length], ['Edge to head line, along it', figures.under_length],
      ['Taken off for cloth', figures.cloth_thickness],
    ].filter(([, mm]) => mm !== undefined && mm !== null);
    const cells = rows.map(([name, mm]) => make('tr', {}, make('th', {scope: 'row'}, name), make('td', {}, writeLength(mm, unit === 'in' ? 'in' : mm < 50 ? 'mm' : unit ?? 'cm'))));
    const row = (name, text) => cells.push(make('tr', {}, make('th', {scope: 'row'}, name), make('td', {}, text)));
    if (figures.vents) row('Vents', String(figures.vents));
    if (figures.volume_mm3) row('Material, massive', unit === 'in' ? `${Math.round(figures.volume_mm3 / 25.4 ** 3)} in³` : `${Math.round(figures.volume_mm3 / 1000)} cm³`);
    if (figures.mass_g) row('Mass', figures.mass_g < 1000 ? `${Math.round(figures.mass_g)} g` : `${(figures.mass_g / 1000).toFixed(2)} kg`);
    this.figuresPlace.replaceChildren(...cells);
  }
}

/** One sentence for those who listen. */
export function spoken(list, answer) {
  const worst = list.filter((one) => one.tone !== 'good');
  const head = `${answer.kind === 'pad' ? 'Pad' : 'Block'} drawn.`;
  if (worst.length === 0) return `${head} Nothing to mind.`;
  return `${head} ${worst.map((one) => `${titles[one.about] ?? one.about}: ${toneWords[one.tone] ?? ''}. ${sentence(one.words)}`).join(' ')}`;
}

