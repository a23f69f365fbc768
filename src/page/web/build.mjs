// Puts the page together: node build.mjs OUT. Writes into OUT what the program embeds; the same sources always give the same bytes.
import {mkdir, readFile, writeFile} from 'node:fs/promises';
import path from 'node:path';
import {fileURLToPath} from 'node:url';
import {build} from 'esbuild';

const here = path.dirname(fileURLToPath(import.meta.url));
const out = process.argv[2];
if (!out) {
  console.error('usage: node build.mjs OUT');
  process.exit(2);
}

async function licences() {
  const three = await readFile(path.join(here, 'node_modules/three/LICENSE'), 'utf8');
  const version = JSON.parse(await readFile(path.join(here, 'node_modules/three/package.json'), 'utf8')).version;
  return [
    'crownwright, and this page with it, is free software under the GNU General Public License, version 3 or any later',
    'one (GPL-3.0-or-later), without any warranty. Its text comes with the program\'s source.',
    '',
    `The picture of the form in 3D is drawn with three.js ${version}, https://threejs.org, under this licence:`,
    '',
    three.trim(),
    '',
  ].join('\n');
}

await mkdir(out, {recursive: true});
await build({
  absWorkingDir: here,
  entryPoints: ['app.js', 'app.css'],
  outdir: path.resolve(out),
  bundle: true,
  minify: true,
  format: 'esm',
  target: ['es2022', 'chrome109', 'firefox110', 'safari16.4'],
  legalComments: 'eof',
  charset: 'utf8',
  logLevel: 'warning',
});
for (const name of ['index.html', 'favicon.svg']) {
  await writeFile(path.join(out, name), await readFile(path.join(here, name)));
}
await writeFile(path.join(out, 'licences.txt'), await licences());
