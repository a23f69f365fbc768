// Elements in one line. Text is always set as text, so nothing that comes from outside is ever read as markup.

const svgSpace = 'http://www.w3.org/2000/svg';

/** make('p', {class: 'help', id: 'x', onclick: f}, 'text', child, ...). */
export function make(tag, attributes = {}, ...children) {
  return furnish(document.createElement(tag), attributes, children);
}

export function draw(tag, attributes = {}, ...children) {
  return furnish(document.createElementNS(svgSpace, tag), attributes, children);
}

function furnish(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return element;
}

/** The element for a trusted piece of SVG of our own. */
export function svgOf(markup) {
  const page = new DOMParser().parseFromString(`<svg xmlns="${svgSpace}">${markup}</svg>`, 'image/svg+xml');
  return document.importNode(page.documentElement, true);
}

/** An <img> that shows SVG text from outside: as a picture it can do nothing but be looked at. */
export function pictureOf(svgText, alt, className) {
  const address = URL.createObjectURL(new Blob([svgText], {type: 'image/svg+xml'}));
  return make('img', {src: address, alt, class: className});
}

export function dismiss(image) {
  if (image?.src.startsWith('blob:')) URL.revokeObjectURL(image.src);
  image?.remove();
}
