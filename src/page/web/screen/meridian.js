// The form's meridian on paper: its outside on the left, cut open on the right, with dimension lines. A dimension line is also an
// input: dragged, or moved with the arrow keys, it changes its value; a click goes to its field.
import {readLength, stepOf, writeLength} from '../core/lengths.js';
import {followsFromPattern} from '../core/ways.js';
import {draw} from './dom.js';
import {labelOf} from './labels.js';

const side = 96, above = 46, below = 50;
const narrowest = 480, widest = 760;  // of the paper, in pixels: figures keep their size on every screen

export class MeridianDrawing {
  #dims = new Map();
  #drags = 0;

  /** context: order(), change(key, text, burst), focus(key), key(path), isListed(key): whether a list of sizes gives the value */
  constructor(svg, context) {
    this.svg = svg;
    this.context = context;
    this.form = draw('g', {class: 'm-form'});
    this.lines = draw('g', {class: 'm-dims'});
    svg.append(draw('defs', {}, draw('pattern', {id: 'm-hatch', width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)'}, draw('rect', {width: 6, height: 6, class: 'm-ground'}), draw('path', {d: 'M0 0V6', class: 'm-stroke'}))),
      this.form, this.lines);
    new ResizeObserver(() => { if (this.answer && this.#wide() !== this.frame.wide) this.show(this.answer); }).observe(svg);
  }

  #wide() { return Math.round(Math.min(widest, Math.max(narrowest, this.svg.clientWidth || 620))); }

  show(answer) {
    this.answer = answer;
    const frame = this.#frame(answer);
    this.frame = frame;
    this.svg.setAttribute('viewBox', `0 0 ${frame.wide} ${frame.high.toFixed(1)}`);
    this.#drawForm(answer, frame);
    this.#drawDims(answer, frame);
  }

  // The scale goes in steps, so that the drawing grows with its value and not against it.
  #frame({meridian, figures}) {
    const points = meridian.flatMap((one) => [one.from, one.to]);
    const a = Math.max(figures.crown_diameter / 2, ...points.map((p) => p[0]));
    const top = Math.max(...points.map((p) => p[1])), foot = Math.min(...points.map((p) => p[1]));
    const wide = this.#wide();
    const scale = (wide - 2 * side) / (2 * Math.ceil(a / 25) * 25);
    const tall = Math.ceil((top - foot) / 20) * 20;
    return {a, top, foot, scale, wide, high: above + below + tall * scale, x: (r) => wide / 2 + r * scale, y: (z) => above + (top - z) * scale};
  }

  #path(segments, {x, y, scale}, mirrored) {
    const way = mirrored ? -1 : 1;
    const at = (p) => `${x(way * p[0]).toFixed(2)} ${y(p[1]).toFixed(2)}`;
    let text = '', last = null;
    for (const one of segments) {
      if (!last || Math.hypot(last[0] - one.from[0], last[1] - one.from[1]) > 0.01) text += `M${at(one.from)}`;
      text += one.kind === 'arc' ? arcTo(one, at(one.to), scale, mirrored) : `L${at(one.to)}`;
      last = one.to;
    }
    return text;
  }

  #drawForm(answer, frame) {
    const {x, y, top, foot, a} = frame, {meridian, head_line: head} = answer;
    const section = this.#path(meridian, frame, false);
    const outside = this.#path(outerOf(meridian, foot), frame, true);
    const parts = [
      draw('path', {class: 'm-cut', d: section, fill: 'url(#m-hatch)'}),
      draw('path', {class: 'm-outside', d: `${outside}L${x(0)} ${y(foot)}V${y(top)}Z`}),
      draw('path', {class: 'm-ink', d: section}),
      draw('path', {class: 'm-ink', d: outside}),
      draw('path', {class: 'm-ink', d: `M${x(-footReach(meridian, foot))} ${y(foot)}H${x(0)}`}),
      draw('path', {class: 'm-axis', d: `M${x(0)} ${y(top) - 14}V${y(foot) + 14}`}),
    ];
    if (head) {
      parts.push(draw('path', {class: 'm-head', d: `M${x(-head[0]) } ${y(head[1])}H${x(0)}`}));
      parts.push(draw('text', {class: 'm-word', x: x(-head[0]) - 7, y: y(head[1]) + 11}, 'head line'));
    }
    this.form.replaceChildren(...parts);
    this.svg.setAttribute('data-crown', String(a));
  }

  #drawDims(answer, frame) {
    const wanted = dimensionsOf(answer, frame);
    const keep = new Set(wanted.map((one) => one.key));
    for (const [key, dim] of this.#dims) {
      if (keep.has(key)) continue;
      dim.remove();
      this.#dims.delete(key);
    }
    for (const one of wanted) this.#dimension(one, answer);
  }

  #dimension(one, answer) {
    let group = this.#dims.get(one.key);
    if (!group) {
      group = this.#makeDimension(one.key);
      this.#dims.set(one.key, group);
      this.lines.append(group);
    }
    const typed = this.context.order()[one.key];
    const ordered = readLength(typed ?? '');
    const unit = ordered?.unit ?? answer.unit ?? 'cm';
    const own = writeLength(one.figure, smallUnit(one.key, answer.unit ?? unit));
    const said = ordered ? typed : own;
    const differs = ordered && Math.abs(ordered.mm - one.figure) > 0.55;
    const key = this.context.key(one.key);
    const value = ordered?.mm ?? one.figure;
    const spoken = differs ? `${said}, on the form ${own}` : said;
    if (followsFromPattern(one.key, this.context.order())) fix(group, `${labelOf(one.key)}: ${spoken}, from the pattern`);
    else if (this.context.isListed(one.key)) fix(group, `${labelOf(one.key)}: ${spoken}, from the list of sizes`);
    else free(group, labelOf(one.key), {now: value.toFixed(1), min: key?.least ?? 0, max: key?.most ?? 900, text: spoken});
    group.dataset.axis = one.axis;
    group.classList.toggle('upright', one.axis === 'y');
    const place = {x: one.text[0], y: one.text[1], 'text-anchor': one.anchor ?? 'middle'};
    const told = one.beside || one.inline ? `${one.lead ?? ''} ${said}`.trim() : said;
    const figure = draw('text', {class: 'm-figure', ...place}, told);
    const form = differs ? `form ${own}` : '';
    if (one.beside && form) figure.append(draw('tspan', {class: 'm-own', dx: 8}, form));
    const below = one.beside ? '' : [one.inline ? '' : one.lead, form].filter(Boolean).join(', ');
    const plate = one.beside ? 170 : Math.max(60, 8.5 * told.length + 8);
    const plateAt = one.text[0] - (one.anchor === 'start' ? 4 : one.anchor === 'end' ? plate - 4 : plate / 2);
    group.replaceChildren(
      draw('path', {class: 'm-reach', d: one.line}),
      one.extension ? draw('path', {class: 'm-extension', d: one.extension}) : '',
      draw('path', {class: 'm-line', d: one.line}),
      ...one.tips.map((tip) => draw('path', {class: 'm-tip', d: tip})),
      draw('rect', {class: 'm-plate', x: plateAt, y: one.text[1] - 14, width: plate, height: below ? 32 : 19, rx: 3}),
      figure,
      below ? draw('text', {class: 'm-own', ...place, y: one.text[1] + 13}, below) : '');
  }

  #makeDimension(key) {
    const group = draw('g', {class: 'm-dim', 'data-dimension': key});
    group.addEventListener('keydown', (event) => this.#onKey(event, key));
    group.addEventListener('pointerdown', (event) => this.#grab(event, group, key));
    group.addEventListener('pointermove', (event) => this.#drag(event, group, key));
    group.addEventListener('pointerup', (event) => this.#drop(event, group, key));
    group.addEventListener('pointercancel', () => { this.held = null; });
    return group;
  }

  // The value as ordered; where none is, what the form has.
  #value(key) {
    const ordered = readLength(this.context.order()[key] ?? '');
    if (ordered) return ordered;
    const figure = dimensionsOf(this.answer, this.frame).find((one) => one.key === key)?.figure ?? 0;
    return {mm: figure + this.#taken(key), unit: smallUnit(key, this.answer.unit ?? 'cm')};
  }

  // What cloth takes off a radius that is given on the beret's outside.
  #taken(key) {
    if (!key.startsWith('shape.') || key === 'shape.dome') return 0;
    const cloth = this.answer.figures.cloth_thickness ?? 0, where = this.context.order()['measure.taken_at'] ?? 'outside';
    return where === 'form' ? 0 : where === 'cloth middle' ? cloth / 2 : cloth;
  }

  #set(key, mm, unit, burst) {
    const range = this.context.key(key);
    const step = stepOf(unit);
    const least = range?.least ?? 0, most = range?.most ?? 900;
    const mended = Math.min(most, Math.max(least, Math.round(mm / step) * step));
    this.context.change(key, writeLength(mended, unit), burst);
  }

  #onKey(event, key) {
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      return this.context.focus(key);
    }
    const steps = {ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10}[event.key];
    if (!steps) return undefined;
    event.preventDefault();
    const {mm, unit} = this.#value(key);
    return this.#set(key, mm + steps * stepOf(unit) * (event.shiftKey ? 10 : 1), unit, key);
  }

  #grab(event, group, key) {
    if (event.button !== 0 || isFixed(group)) return;
    event.preventDefault();
    group.setPointerCapture(event.pointerId);
    this.held = {key, number: ++this.#drags, x: event.clientX, y: event.clientY, moved: false, ...this.#value(key), scale: this.frame.scale * (this.svg.getScreenCTM()?.a ?? 1)};
  }

  #drag(event, group, key) {
    const held = this.held;
    if (held?.key !== key) return;
    const upright = group.dataset.axis === 'y';
    const way = upright ? held.y - event.clientY : (event.clientX - held.x) * (key.endsWith('radius') ? 1 : 2);
    if (!held.moved && Math.abs(way) < 5) return;
    held.moved = true;
    this.#set(key, held.mm + way / held.scale, held.unit, `drag ${held.number}`);
  }

  #drop(event, group, key) {
    const held = this.held;
    this.held = null;
    group.releasePointerCapture?.(event.pointerId);
    if (held && !held.moved) this.context.focus(key);
  }
}

// A dimension that can be moved is a slider; one that follows from the pattern is only told.
function free(group, name, value) {
  group.setAttribute('role', 'slider');
  group.setAttribute('tabindex', '0');
  group.setAttribute('aria-label', name);
  for (const [part, one] of Object.entries(value)) group.setAttribute(`aria-value${part}`, String(one));
  group.classList.remove('m-fixed');
}

function fix(group, name) {
  for (const part of ['now', 'min', 'max', 'text']) group.removeAttribute(`aria-value${part}`);
  group.setAttribute('role', 'img');
  group.removeAttribute('tabindex');
  group.setAttribute('aria-label', name);
  group.classList.add('m-fixed');
}

const isFixed = (group) => group.classList.contains('m-fixed');

// Small parts are told in millimetres where people use them at all.
function smallUnit(key, unit) {
  return unit === 'cm' && !key.startsWith('measure.') ? 'mm' : unit;
}

/** From the pole along the outside to the foot. */
function outerOf(meridian, foot) {
  const outer = [];
  for (const one of meridian) {
    outer.push(one);
    if (Math.abs(one.to[1] - foot) < 0.01) break;
  }
  return outer;
}

function footReach(meridian, foot) {
  return Math.max(0, ...meridian.flatMap((one) => [one.from, one.to]).filter((p) => Math.abs(p[1] - foot) < 0.01).map((p) => p[0]));
}

// SVG's arc of the segment; z points up here and down there, so a turn to the left is one to the right.
function arcTo(one, to, scale, mirrored) {
  const [fx, fz] = [one.from[0] - one.centre[0], one.from[1] - one.centre[1]], [tx, tz] = [one.to[0] - one.centre[0], one.to[1] - one.centre[1]];
  const turn = typeof one.turn === 'number' && one.turn !== 0 ? one.turn : Math.atan2(fx * tz - fz * tx, fx * tx + fz * tz);
  const radius = ((one.radius ?? Math.hypot(fx, fz)) * scale).toFixed(2);
  const sweep = (turn > 0) === mirrored ? 1 : 0;
  return `A${radius} ${radius} 0 ${Math.abs(turn) > Math.PI ? 1 : 0} ${sweep} ${to}`;
}

const tip = (x, y, dx, dy) => {
  const long = Math.hypot(dx, dy) || 1, ux = dx / long, uy = dy / long;
  return `M${x} ${y}L${(x - 9 * ux + 3 * uy).toFixed(1)} ${(y - 9 * uy - 3 * ux).toFixed(1)}L${(x - 9 * ux - 3 * uy).toFixed(1)} ${(y - 9 * uy + 3 * ux).toFixed(1)}Z`;
};

function level(key, figure, x1, x2, y, extension, lead, shift = -6) {
  return {key, figure, axis: 'x', line: `M${x1} ${y}H${x2}`, extension, tips: [tip(x1, y, -1, 0), tip(x2, y, 1, 0)], text: [(x1 + x2) / 2, y + shift], lead, beside: true};
}

function upright(key, figure, x, y1, y2, extension, toRight, lead) {
  const short = Math.abs(y2 - y1) < 24;
  const line = short ? `M${x} ${y1 - 16}V${y1}M${x} ${y2}V${y2 + 16}M${x} ${y1}V${y2}` : `M${x} ${y1}V${y2}`;
  const tips = short ? [tip(x, y1, 0, 1), tip(x, y2, 0, -1)] : [tip(x, y1, 0, -1), tip(x, y2, 0, 1)];
  return {key, figure, axis: 'y', line, extension, tips, text: [x + (toRight ? 8 : -8), (y1 + y2) / 2 + 5], anchor: toRight ? 'start' : 'end', lead};
}

/** Every dimension of the drawing: where its line runs, and what it says. */
function dimensionsOf({figures, meridian, head_line: head, kind}, frame) {
  const {x, y, a, top, foot} = frame, list = [];
  const edge = crownEdge(meridian, figures.crown_diameter / 2), equator = edge?.to[1] ?? (top + foot) / 2;
  const left = x(-a) - 22, right = x(a) + 22, crown = figures.crown_diameter / 2;
  list.push(level('measure.crown_diameter', figures.crown_diameter, x(-crown), x(crown), 24, `M${x(-crown)} ${y(equator)}V18M${x(crown)} ${y(equator)}V18`, ''));
  if (figures.head_girth && head) {
    const low = y(foot) + 26;
    list.push(level('measure.head_girth', figures.head_girth, x(-head[0]), x(head[0]), low, `M${x(-head[0])} ${y(head[1])}V${low + 6}M${x(head[0])} ${y(head[1])}V${low + 6}`, 'girth', 17));
  }
  const base = head && kind !== 'pad' ? head[1] : foot;
  list.push(upright('measure.rise', figures.rise, right, y(top), y(base), `M${x(0)} ${y(top)}H${right + 6}M${x(head ? head[0] : footReach(meridian, foot))} ${y(base)}H${right + 6}`, true));
  if (figures.collar > 0 && kind !== 'pad') list.push(upright('form.collar', figures.collar, right - 34, y(base), y(foot), `M${x(head[0])} ${y(foot)}H${right - 28}`, true, 'collar'));
  if (figures.dome > 0.05) list.push(upright('shape.dome', figures.dome, left - 4, y(top), y(top - figures.dome), `M${x(0)} ${y(top)}H${left - 10}M${x(-crown + (figures.edge_radius ?? 0))} ${y(top - figures.dome)}H${left - 10}`, false, 'dome'));
  if (edge?.kind === 'arc') list.push(radius('shape.edge_radius', edge, frame, -1));
  const under = edge ? meridian[meridian.indexOf(edge) + 1] : null;
  if (under?.kind === 'arc' && Math.abs(under.radius - (edge.radius ?? 0)) > 0.3) list.push(radius('shape.under_edge_radius', under, frame, 1));
  if (figures.wall > 0 && kind !== 'pad') list.push(wall(figures, meridian, frame));
  return list;
}

// The arc, or corner, that comes down to the crown's widest place.
function crownEdge(meridian, crown) {
  return meridian.find((one) => Math.abs(one.to[0] - crown) < 0.05) ?? null;
}

function radius(key, arc, {x, y}, below) {
  const size = arc.radius ?? Math.hypot(arc.from[0] - arc.centre[0], arc.from[1] - arc.centre[1]);
  const from = [x(-arc.centre[0]), y(arc.centre[1])];
  const slant = Math.SQRT1_2 * size;
  const to = [x(-(arc.centre[0] + slant)), y(arc.centre[1] - below * slant)];
  const text = [Math.max(from[0] + 10, to[0] + 30), from[1] + 10 + (below > 0 ? 24 : 4)];
  return {key, figure: size, axis: 'x', line: `M${text[0] - 4} ${text[1] - 4}L${from[0]} ${from[1]}L${to[0].toFixed(1)} ${to[1].toFixed(1)}`, tips: [tip(+to[0].toFixed(1), +to[1].toFixed(1), to[0] - from[0], to[1] - from[1])],
    text, anchor: 'start', inline: true, lead: below > 0 ? 'below R' : 'R'};
}

// At the tip's middle, measured square to it as near as makes no difference.
function wall({wall: thick, crown_diameter: crown}, meridian, {x, y}) {
  const r = crown * 0.2, z = heightAt(meridian, r);
  const px = x(r), y1 = y(z), y2 = y(z - thick);
  return {key: 'form.wall', figure: thick, axis: 'y', line: `M${px} ${y1 - 12}V${y1}M${px} ${y2}V${y2 + 30}`, tips: [tip(px, y1, 0, 1), tip(px, y2, 0, -1)], text: [px + 6, y2 + 32], anchor: 'start', lead: 'wall'};
}

function heightAt(meridian, r) {
  const first = meridian[0];
  if (first.kind !== 'arc') return first.from[1];
  const size = Math.hypot(first.from[0] - first.centre[0], first.from[1] - first.centre[1]);
  return first.centre[1] + Math.sqrt(Math.max(0, size * size - (r - first.centre[0]) ** 2));
}
