// What the core allows instead of an impossible form, as changes that can be made with one press. The core tells it in a sentence;
// where the sentence has no such figure there is no button.
import {readLength, stepOf, writeLength} from './lengths.js';

const keyOf = {'rise': 'measure.rise', 'crown diameter': 'measure.crown_diameter', 'head girth': 'measure.head_girth', 'edge radius': 'shape.edge_radius', 'dome': 'shape.dome'};
const names = Object.keys(keyOf).join('|');
const bounds = [
  [new RegExp(`\\b(${names})\\b(?: must be| of)? at (least|most) ([\\d.]+) mm`, 'g'), (found) => [found[1], found[2] === 'least', found[3]]],
  [new RegExp(`\\b(largest|least) (${names})\\b[^,;]*? ([\\d.]+) mm`, 'g'), (found) => [found[2], found[1] === 'least', found[3]]],
];

// To the safe side, in what the person types: a step of the tape.
function rounded(mm, isLeast, unit) {
  const steps = mm / stepOf(unit);
  return writeLength((isLeast ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6)) * stepOf(unit), unit);
}

/** [{key, text}] of the allowed values in `fault`. */
export function waysOut(fault, order) {
  const found = [];
  for (const [pattern, read] of bounds) {
    for (const match of (fault.allowed ?? '').matchAll(pattern)) {
      const [name, isLeast, mm] = read(match), key = keyOf[name];
      const unit = readLength(order[key] ?? '')?.unit ?? (key.startsWith('measure.') ? readLength(order['measure.crown_diameter'] ?? '')?.unit ?? 'cm' : readLength(order['measure.crown_diameter'] ?? '')?.unit === 'in' ? 'in' : 'mm');
      const text = rounded(Number(mm), isLeast, unit);
      if (Number(mm) > 0 && !found.some((one) => one.key === key)) found.push({key, text});
    }
  }
  return found;
}
