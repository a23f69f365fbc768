// Lists of rows as an order writes them: [["0 mm", "0 mm"], ["40 mm", "33 mm"]].

/** Rows of cells out of the order's notation, or out of lines as they are pasted from a table; null where neither can be read. */
export function readRows(text) {
  const tidy = text.trim();
  if (tidy === '') return [];
  return tidy.startsWith('[') ? notation(tidy) : lines(tidy);
}

function notation(text) {
  try {
    const list = JSON.parse(text.replace(/,\s*([\]}])/g, '$1'));
    const rows = list.map((row) => (Array.isArray(row) ? row : [row]));
    return rows.every((row) => row.every((cell) => typeof cell === 'string')) ? rows : null;
  } catch {
    return null;
  }
}

// Tabs or semicolons part cells; a comma does only where a space follows, as it may be a decimal comma.
function lines(text) {
  return text.split(/\r?\n/).filter((line) => line.trim() !== '').map((line) => {
    const sign = line.includes('\t') ? /\t/ : line.includes(';') ? /;/ : /,\s+|\s{2,}/;
    return line.split(sign).map((cell) => cell.trim()).filter((cell) => cell !== '');
  });
}

export function writeRows(rows) {
  if (rows.length === 0) return '';
  return `[${rows.map((row) => `[${row.map((cell) => JSON.stringify(cell)).join(', ')}]`).join(', ')}]`;
}

export function writeList(words) {
  return words.length === 0 ? '' : `[${words.map((word) => JSON.stringify(word)).join(', ')}]`;
}

export function readList(text) {
  const rows = readRows(text ?? '');
  return rows === null ? [] : rows.map((row) => row[0]);
}
