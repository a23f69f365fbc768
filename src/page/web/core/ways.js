// What an order begins from, and which keys cannot stand beside which. The core is the judge of that; these rules only spare people
// errors that the page itself would bring about when they change their mind.

const stationKeys = ['pattern.stations'];
const outlineKeys = ['pattern.file', 'pattern.layer', 'pattern.fold', 'pattern.drawing_unit'];
const discKeys = ['pattern.top_diameter', 'pattern.ring_diameter', 'pattern.ring_opening'];
const lengthKeys = ['panel_lengths', 'panel_lengths.top', 'panel_lengths.under'];
const measureKeys = ['measure.head_girth', 'measure.hat_size', 'measure.crown_diameter', 'measure.rise', 'measure.taken_at', 'measure.before_steam'];
const edgeKeys = ['shape.edge_radius', 'shape.under_edge_radius'];
const dishKeys = ['dish', 'dish.readings', 'dish.file', 'dish.gap'];
const drawnKeys = ['pattern.kind', 'pattern.includes_allowance', ...stationKeys, ...outlineKeys, ...discKeys];

/** Every key that a change of way takes out or brings back. */
const wayKeys = [...measureKeys, ...edgeKeys, ...lengthKeys, ...dishKeys, ...drawnKeys, 'form.kind', 'shape.profile', 'pattern.seam_allowance', 'pattern.panels'];

// Of the kinds of form: filled by knowKeys() with what the core says of each key.
const takenBy = new Map([['form.wall', 'block']]);
const hollowAlone = ['form.floor', 'form.posts', 'form.post_diameter'];

/** Takes over which keys and tables are a block's or a pad's alone. */
export function knowKeys(keys) {
  const tables = new Map();
  for (const key of keys) {
    if (key.for === 'block' || key.for === 'pad') takenBy.set(key.path, key.for);
    if (key.table) tables.set(key.table, tables.has(key.table) && tables.get(key.table) !== key.for ? 'both' : key.for);
  }
  for (const [table, kind] of tables) if (kind === 'block' || kind === 'pad') takenBy.set(table, kind);
}

export const ways = ['measures', 'stations', 'outline', 'lengths', 'discs', 'dish'];

const inTable = (key, table) => key === table || key.startsWith(`${table}.`);

export function kindOf(order) {
  return order['form.kind'] === 'pad' ? 'pad' : 'block';
}

/** Which of `ways` an order goes. */
export function wayOf(order, attachments = {}) {
  const kind = order['pattern.kind'];
  if (kind === 'stations' || kind === 'outline' || kind === 'discs') return kind;
  if (lengthKeys.some((key) => key in order)) return 'lengths';
  if (dishKeys.some((key) => key in order) || kindOf(order) === 'pad' && 'dish.file' in attachments) return 'dish';
  return 'measures';
}

/** The attached files that the order has a use for; others wait for a change of mind. */
export function usedOf(attachments, order) {
  const way = wayOf(order, attachments), uses = {'pattern.file': way === 'outline', 'dish.file': way === 'dish' && kindOf(order) === 'pad' && !order['dish.readings']};
  return Object.fromEntries(Object.entries(attachments).filter(([key]) => uses[key]));
}

/** Whether the key has a place in this order, as far as the page knows. */
export function hasPlace(key, order) {
  const kind = kindOf(order);
  if ((takenBy.get(key) ?? kind) !== kind) return false;
  return kind === 'pad' || order['form.wall'] !== 'solid' || !hollowAlone.includes(key) && !inTable(key, 'vents');
}

/** The state with what has no place on the shelf, and what has one again back in the order. */
export function settle(state) {
  const order = {}, shelf = {...state.shelf};
  for (const [key, value] of Object.entries(state.order)) {
    if (hasPlace(key, state.order)) order[key] = value;
    else shelf[key] = value;
  }
  for (const [key, value] of Object.entries(shelf)) {
    if (key.startsWith('way:') || !hasPlace(key, order)) continue;
    if (!(key in order)) order[key] = value;
    delete shelf[key];
  }
  return {...state, order, shelf};
}

/** Whether the value comes out of the pattern, so that typing it beside the pattern would be a contradiction. */
export function followsFromPattern(key, order) {
  if (key in order) return false;
  const way = wayOf(order);
  if (edgeKeys.includes(key)) return way === 'stations' || way === 'outline' || way === 'lengths';
  return (key === 'measure.crown_diameter' || key === 'measure.head_girth') && (way === 'stations' || way === 'outline');
}

const pick = (order, keys) => Object.fromEntries(keys.filter((key) => key in order).map((key) => [key, order[key]]));

// With what a way begins when it has not been gone before: example figures to write one's own over.
function firstOf(way, order) {
  const kept = pick(order, ['shape.profile', 'pattern.panels']);
  const common = {'measure.head_girth': order['measure.head_girth'] ?? '57 cm'};
  switch (way) {
    case 'stations':
      return {...kept, 'form.kind': 'block', 'pattern.kind': 'stations', 'pattern.stations': exampleStations, 'cloth.name': order['cloth.name'] ?? 'fleece',
        'pattern.panels': order['pattern.panels'] ?? '8'};
    case 'outline':
      return {...kept, 'form.kind': 'block', 'pattern.kind': 'outline', 'cloth.name': order['cloth.name'] ?? 'fleece', 'pattern.panels': order['pattern.panels'] ?? '8',
        'pattern.includes_allowance': 'true', 'pattern.seam_allowance': order['pattern.seam_allowance'] ?? '10 mm'};
    case 'lengths':
      return {...common, ...kept, 'form.kind': 'block', 'measure.crown_diameter': order['measure.crown_diameter'] ?? '28 cm', 'measure.taken_at': 'cloth middle',
        'panel_lengths.top': '151.6 mm', 'panel_lengths.under': '71.5 mm'};
    case 'discs':
      return {...common, 'form.kind': 'block', 'pattern.kind': 'discs', 'pattern.top_diameter': '29 cm', 'pattern.ring_diameter': '29 cm',
        'pattern.ring_opening': '15 cm', 'pattern.includes_allowance': 'true', 'pattern.seam_allowance': order['pattern.seam_allowance'] ?? '10 mm', 'shape.profile': 'narrow-edge',
        'cloth.name': order['cloth.name'] ?? 'wool-felt'};
    case 'dish':
      return {...kept, 'form.kind': 'pad', 'measure.crown_diameter': order['measure.crown_diameter'] ?? '26 cm', 'measure.rise': '5.5 cm', 'measure.taken_at': 'form',
        'dish.readings': exampleReadings, 'dish.gap': '3 mm'};
    default:
      return {...common, ...kept, 'form.kind': 'block', 'measure.crown_diameter': order['measure.crown_diameter'] ?? '28 cm', 'measure.rise': order['measure.rise'] ?? '7.5 cm'};
  }
}

export const exampleStations = '[["0 mm", "0 mm"], ["40 mm", "33 mm"], ["80 mm", "66 mm"], ["110 mm", "91 mm"], ["130 mm", "104 mm"], ' +
  '["140 mm", "107.5 mm"], ["150 mm", "106.5 mm"], ["160 mm", "102.5 mm"], ["180 mm", "89 mm"], ["205 mm", "72 mm"]]';
export const exampleReadings = '[["0 mm", "0 mm"], ["40 mm", "1 mm"], ["80 mm", "4 mm"], ["110 mm", "9 mm"], ["140 mm", "18 mm"]]';

/** The page's order before anyone has touched it. */
export const firstOrder = {
  name: 'Market beret, 57 cm',
  'measure.head_girth': '57 cm',
  'measure.crown_diameter': '28 cm',
  'measure.rise': '7.5 cm',
  'shape.profile': 'soft-dome',
  'cloth.name': 'boiled-wool',
  'form.kind': 'block',
  'form.collar': '15 mm',
  'vents.diameter': '3 mm',
  'vents.spacing': '25 mm',
  'pattern.panels': '8',
  'print.material': 'pc',
};

/** The state after the person has chosen another way. What the old way held waits on the shelf. */
export function goWay(state, way) {
  const from = wayOf(state.order, state.attachments);
  if (from === way) return state;
  const rest = Object.fromEntries(Object.entries(state.order).filter(([key]) => !wayKeys.includes(key)));
  const shelf = {...state.shelf, [`way:${from}`]: pick(state.order, wayKeys)};
  const held = shelf[`way:${way}`];
  delete shelf[`way:${way}`];
  return {...state, order: {...rest, ...(held ?? firstOf(way, state.order))}, shelf};
}

/** Pairs of which the later written one takes the other's place. */
export const instead = {
  'measure.head_girth': 'measure.hat_size',
  'measure.hat_size': 'measure.head_girth',
  'print.bed': 'print.printer',
  'print.printer': 'print.bed',
};
