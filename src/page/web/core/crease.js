// What the eye needs of a mesh: normals that are smooth on round faces and break at edges, and those edges as lines of ink.

const sharp = Math.cos(Math.PI * 32 / 180);

function faceNormals(positions, indices) {
  const count = indices.length / 3, area = new Float32Array(indices.length), unit = new Float32Array(indices.length);
  for (let f = 0; f < count; ++f) {
    const a = 3 * indices[3 * f], b = 3 * indices[3 * f + 1], c = 3 * indices[3 * f + 2];
    const ux = positions[b] - positions[a], uy = positions[b + 1] - positions[a + 1], uz = positions[b + 2] - positions[a + 2];
    const vx = positions[c] - positions[a], vy = positions[c + 1] - positions[a + 1], vz = positions[c + 2] - positions[a + 2];
    const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx, long = Math.sqrt(x * x + y * y + z * z) || 1, at = 3 * f;
    area[at] = x; area[at + 1] = y; area[at + 2] = z;
    unit[at] = x / long; unit[at + 1] = y / long; unit[at + 2] = z / long;
  }
  return {area, unit};
}

// Faces round each vertex: those of vertex v stand at faces[first[v]] .. faces[first[v + 1] - 1].
function facesAround(indices, vertices) {
  const first = new Uint32Array(vertices + 1);
  for (const v of indices) ++first[v + 1];
  for (let v = 0; v < vertices; ++v) first[v + 1] += first[v];
  const next = first.slice(0, vertices), faces = new Uint32Array(indices.length);
  for (let at = 0; at < indices.length; ++at) faces[next[indices[at]]++] = (at / 3) | 0;
  return {first, faces};
}

/** {positions, normals} three corners a face, for drawing, and {creases}: pairs of points. The mesh's vertices are shared. */
export function shade(positions, indices) {
  const {area, unit} = faceNormals(positions, indices);
  const {first, faces} = facesAround(indices, positions.length / 3);
  const corners = new Float32Array(3 * indices.length), normals = new Float32Array(3 * indices.length), creases = [];
  const dot = (f, g) => unit[3 * f] * unit[3 * g] + unit[3 * f + 1] * unit[3 * g + 1] + unit[3 * f + 2] * unit[3 * g + 2];
  for (let at = 0; at < indices.length; ++at) {
    const v = indices[at], f = (at / 3) | 0, to = at % 3 === 2 ? indices[at - 2] : indices[at + 1];
    let x = 0, y = 0, z = 0;
    for (let i = first[v]; i < first[v + 1]; ++i) {
      const g = faces[i];
      const alike = dot(f, g) > sharp;
      if (alike) { x += area[3 * g]; y += area[3 * g + 1]; z += area[3 * g + 2]; }
      if (!alike && f < g && holds(indices, g, to)) {
        for (const w of [v, to]) creases.push(positions[3 * w], positions[3 * w + 1], positions[3 * w + 2]);
      }
    }
    const long = Math.sqrt(x * x + y * y + z * z) || 1, out = 3 * at;
    normals[out] = x / long; normals[out + 1] = y / long; normals[out + 2] = z / long;
    corners[out] = positions[3 * v]; corners[out + 1] = positions[3 * v + 1]; corners[out + 2] = positions[3 * v + 2];
  }
  return {positions: corners, normals, creases: new Float32Array(creases)};
}

function holds(indices, face, vertex) {
  return indices[3 * face] === vertex || indices[3 * face + 1] === vertex || indices[3 * face + 2] === vertex;
}

/** Bytes of a base64 text. */
export function bytesOf(base64) {
  if (typeof Uint8Array.fromBase64 === 'function') return Uint8Array.fromBase64(base64);
  const text = atob(base64), bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** A mesh of the core's answer: {positions: Float32Array, indices: Uint32Array}. */
export function meshOf({positions, indices}) {
  return {positions: new Float32Array(bytesOf(positions).buffer), indices: new Uint32Array(bytesOf(indices).buffer)};
}
