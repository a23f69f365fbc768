// The whole order in the page's address, behind the #: key=value, parted by &. Readable, and no longer than it must be.

const lead = 'order:';
const longest = 60000;

function spell(text) {
  return encodeURIComponent(text).replace(/%20/g, '+').replace(/%2C/g, ',').replace(/%2F/g, '/').replace(/%3A/g, ':');
}

function unspell(text) {
  return decodeURIComponent(text.replace(/\+/g, ' '));
}

/** The hash that carries the order, with its #; empty where the order is too long for an address. */
export function writeAddress(order) {
  const parts = Object.keys(order).map((key) => (order[key] === true ? spell(key) : `${spell(key)}=${spell(String(order[key]))}`));
  const hash = `#${lead}${parts.join('&')}`;
  return hash.length > longest ? '' : hash;
}

/** {order}, or {problem: sentence}, or null where the hash is none of ours to read. `known` says whether a key exists. */
export function readAddress(hash, known) {
  if (hash === '' || hash === '#') return null;
  if (!hash.startsWith(`#${lead}`)) return {problem: 'The address does not carry an order. The page begins with its own.'};
  if (hash.length > longest) return {problem: 'The address is too long to be an order of this page.'};
  const order = {};
  for (const part of hash.slice(1 + lead.length).split('&')) {
    if (part === '') continue;
    const at = part.indexOf('=');
    let key, value;
    try {
      key = unspell(at < 0 ? part : part.slice(0, at));
      value = at < 0 ? true : unspell(part.slice(at + 1));
    } catch {
      return {problem: 'The order in the address is damaged. The page begins with its own.'};
    }
    if (!known(key, value)) return {problem: `The order in the address has a key that does not exist, “${key.slice(0, 60)}”. The page begins with its own.`};
    order[key] = value;
  }
  return {order};
}
