// Reads a zip from its directory at the end (APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16): stored and deflated entries.
import assert from 'node:assert/strict';
import {inflateRawSync} from 'node:zlib';

/** Map of name to content. */
export function unzip(bytes) {
  const end = bytes.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  assert.notEqual(end, -1, 'no zip: it has no directory');
  const files = new Map();
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; --left) {
    assert.equal(bytes.readUInt32LE(at), 0x02014b50, 'the zip\'s directory is broken');
    const method = bytes.readUInt16LE(at + 10), packed = bytes.readUInt32LE(at + 20), size = bytes.readUInt32LE(at + 24);
    const nameLong = bytes.readUInt16LE(at + 28), head = bytes.readUInt32LE(at + 42);
    const name = bytes.toString('utf8', at + 46, at + 46 + nameLong);
    const from = head + 30 + bytes.readUInt16LE(head + 26) + bytes.readUInt16LE(head + 28);
    const raw = bytes.subarray(from, from + packed);
    const content = method === 8 ? inflateRawSync(raw) : raw;
    assert.equal(content.length, size, `${name} in the zip has another size than its directory says`);
    files.set(name, content);
    at += 46 + nameLong + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return files;
}
