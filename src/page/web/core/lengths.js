// Lengths as people say them: "57 cm", "57,5 cm", "22 1/2 in", "3/8\"". The core reads them; this module only brings slips of the
// hand into the form that the core takes, and reckons where a value is stepped or dragged.

const perUnit = {mm: 1, cm: 10, m: 1000, in: 25.4};
const fractions = {'½': 1 / 2, '⅓': 1 / 3, '⅔': 2 / 3, '¼': 1 / 4, '¾': 3 / 4, '⅕': 1 / 5, '⅖': 2 / 5, '⅗': 3 / 5, '⅘': 4 / 5,
  '⅙': 1 / 6, '⅚': 5 / 6, '⅐': 1 / 7, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8, '⅑': 1 / 9, '⅒': 1 / 10};
const unitWords = [
  [/(millimet(re|er)s?|mm\.?)$/i, 'mm'],
  [/(centimet(re|er)s?|cms?\.?)$/i, 'cm'],
  [/(inch(es)?|ins?\.?|"|”|“|″|'')$/i, 'in'],
];
const number = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;
const mixed = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;
const vulgar = new RegExp(`^(\\d+)? ?([${Object.keys(fractions).join('')}])$`);

/** The text with decimal commas, odd spaces and spelt-out units put right. Anything else stays as it is. */
export function tidyLength(text) {
  let tidy = text.replace(/[\s\u00a0\u2009\u202f]+/g, ' ').trim().replace(/⁄/g, '/').replace(/−/g, '-');
  tidy = tidy.replace(/(\d),(\d)/g, '$1.$2').replace(/(^|[^\d])[.,](\d)/g, '$10.$2');
  for (const [pattern, unit] of unitWords) {
    const found = tidy.match(pattern);
    if (!found) continue;
    const figure = tidy.slice(0, found.index).trim();
    if (figure !== '' && readNumber(figure) !== null) return `${figure} ${unit}`;
  }
  return tidy;
}

function readNumber(text) {
  if (number.test(text)) return Number(text);
  const parts = text.match(mixed);
  if (parts && Number(parts[3]) !== 0) return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
  const sign = text.match(vulgar);
  return sign ? Number(sign[1] ?? 0) + fractions[sign[2]] : null;
}

/** {mm, unit} of a length with its unit, or null. */
export function readLength(text) {
  const found = tidyLength(text ?? '').match(/^(.*?) ?(mm|cm|m|in)$/);
  if (!found) return null;
  const value = readNumber(found[1].trim());
  return value === null ? null : {mm: value * perUnit[found[2]], unit: found[2]};
}

/** True for a figure to which only the unit is missing. */
export function isBareNumber(text) {
  return readNumber(tidyLength(text)) !== null;
}

const trimmed = (value, digits) => String(Number(value.toFixed(digits)));

function inches(mm) {
  const sixteenths = Math.round(mm / 25.4 * 16);
  const whole = Math.trunc(sixteenths / 16);
  let over = Math.abs(sixteenths % 16), below = 16;
  if (over === 0) return `${whole} in`;
  while (over % 2 === 0) { over /= 2; below /= 2; }
  return whole === 0 ? `${over}/${below} in` : `${whole} ${over}/${below} in`;
}

/** The length in that unit, to about half a millimetre or a sixteenth of an inch: what a tape can show. */
export function writeLength(mm, unit) {
  if (unit === 'in') return inches(mm);
  if (unit === 'mm') return `${trimmed(mm, 1)} mm`;
  return unit === 'm' ? `${trimmed(mm / 1000, 3)} m` : `${trimmed(mm / 10, 1)} cm`;
}

/** One step of a value written in that unit, in mm. */
export function stepOf(unit) {
  return unit === 'in' ? 25.4 / 16 : 1;
}
