// A run of sizes on the page: one size of it is shown and taken at a time. Which one is no part of the order.
import {readRows} from './list_text.js';

const measured = ['measure.head_girth', 'measure.crown_diameter', 'measure.rise'];
const longestName = 120;  // bytes, as the core takes it
const bytesOf = (text) => new TextEncoder().encode(text).length;

export const asMeasured = '';

export function isRun(order) {
  return Object.keys(order).some((key) => key === 'sizes' || key.startsWith('sizes.'));
}

/** The sizes that can be picked: the one under the measures where there is one, and the rows of the list: [{name, values}]. */
export function sizesOf(order) {
  if (!isRun(order)) return [];
  const rows = (readRows(order['sizes.list'] ?? '') ?? []).filter((row) => row[0] && row[1] && row[2]);
  const listed = rows.map(([name, girth, crown, rise]) => ({name, values: {'measure.head_girth': girth, 'measure.crown_diameter': crown, ...(rise ? {'measure.rise': rise} : {})}}));
  const typed = rows.length === 0 || measured.slice(0, 2).every((key) => key in order || key === 'measure.head_girth' && 'measure.hat_size' in order);
  return typed ? [{name: asMeasured, values: {}}, ...listed] : listed;
}

/** The picked size, or the first where that name is no longer in the run; null without a run. */
export function pickedOf(order, name) {
  const sizes = sizesOf(order);
  return sizes.find((one) => one.name === name) ?? sizes[0] ?? null;
}

function sized(order, picked) {
  const measures = {...order, ...picked.values};
  if ('measure.head_girth' in picked.values) delete measures['measure.hat_size'];
  return measures;
}

/** The order to be shown: that size's measures in the run, so that the run itself is still read. */
export function shownOrder(order, name) {
  const picked = pickedOf(order, name);
  return picked && picked.name !== asMeasured ? sized(order, picked) : order;
}

/** The order to be taken: that size alone, named as the program names it in a run. */
export function takenOrder(order, name) {
  const picked = pickedOf(order, name);
  if (!picked) return order;
  const alone = Object.fromEntries(Object.entries(sized(order, picked)).filter(([key]) => !isRun({[key]: true})));
  const suffix = `, size ${picked.name}`;
  if (picked.name !== asMeasured && alone.name && bytesOf(alone.name + suffix) <= longestName) alone.name += suffix;
  return alone;
}
