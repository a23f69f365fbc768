// Every way in ends in files, and what is proved of them agrees with what was typed.
import assert from 'node:assert/strict';
import {readFile, writeFile} from 'node:fs/promises';
import path from 'node:path';
import {near, tried} from './support/bench.mjs';
import {prove, source, work} from './support/program.mjs';
import {unzip} from './support/zip.mjs';

// Coarse facets are proved sooner, and their corners lie on the form all the same.
const coarse = {'mesh.chord_tolerance': '0.1 mm'};

tried('head and crown measures end in a form of those measures, alone and in the zip', {}, async (bench) => {
  await bench.begin('measures');
  await bench.putAll({...coarse, name: 'Tried by measures', 'measure.head_girth': '56 cm', 'measure.crown_diameter': '27.5 cm', 'measure.rise': '7 cm', 'measure.taken_at': 'form', 'form.collar': '15 mm'});
  const {size} = await prove(await bench.take('.stl', 'measures.stl'));
  near(size[0], 275, 0.1, 'crown diameter as typed');
  near(size[1], 275, 0.1, 'crown diameter as typed');
  near(size[2], 70 + 15, 0.1, 'rise and collar as typed');

  const files = unzip(await readFile(await bench.take(null, 'measures.zip')));
  const names = [...files.keys()];
  for (const ending of ['.stl', '.3mf', '.report.json', '.sheet.a4.pdf', '.picture.png']) assert.ok(names.some((name) => name.endsWith(ending)), `${ending} is not in the zip: ${names}`);
  const offered = await bench.page.evaluate(() => [...document.querySelectorAll('[data-ending]')].map((one) => one.dataset.ending));
  assert.ok(offered.length >= 8, `only ${offered} are offered`);
  for (const ending of offered) assert.ok(names.some((name) => name.endsWith(ending)), `${ending} is offered, but not in the zip: ${names}`);
  const meshes = names.filter((name) => /\.(stl|3mf)$/.test(name));
  for (const name of meshes) {
    const file = path.join(work, 'taken', `zip-${path.basename(name)}`);
    await writeFile(file, files.get(name));
    near((await prove(file)).size[0], 275, 0.1, `crown diameter in ${name}`);
  }
});

tried('inches as one says them end in a form of that size', {}, async (bench) => {
  await bench.putAll({...coarse, 'measure.head_girth': '22 1/2 in', 'measure.crown_diameter': '11 1/4"', 'measure.rise': '2 7/8 in', 'measure.taken_at': 'form'});
  near((await prove(await bench.take('.stl', 'inches.stl'))).size[0], 285.75, 0.1, 'crown diameter as typed');
  // Where nothing was typed, and in what is drawn and told, the unit is the same.
  const told = await bench.page.evaluate(() => [...['shape.edge_radius', 'shape.dome', 'cloth.thickness'].map((id) => document.getElementById(id).placeholder), ...[...document.querySelectorAll('#meridian .m-figure, #meridian .m-own')].map((one) => one.textContent),
    ...[...document.querySelectorAll('#figures td')].map((one) => one.textContent)]);
  assert.ok(told.filter((text) => / in\b/.test(text)).length >= 12, `too little is told in inches: ${told}`);
  assert.deepEqual(told.filter((text) => /\d (mm|cm)\b/.test(text) && !text.startsWith('15 mm') && !text.startsWith('wall')), [], 'told in another unit than typed');
});

tried('of a run of sizes one is picked, shown and taken, and the order keeps them all', {}, async (bench) => {
  await bench.page.locator('#order-file').setInputFiles(path.join(source, 'samples/town-three-sizes.toml'));
  await bench.page.locator('#notice', {hasText: 'run of sizes'}).waitFor();
  await bench.current();
  const order = await bench.saved('sizes.toml');
  const middle = await bench.figure('Crown diameter');
  await bench.putAll({...coarse, 'size-picked': 'L'});
  await bench.current();
  near(await bench.figure('Crown diameter'), middle + 10, 0.6, 'the crown of size L, 28 and not 27 cm');
  assert.match(await bench.page.locator('[data-dimension="measure.crown_diameter"]').getAttribute('aria-label'), /28 cm.*list of sizes/);
  const file = await bench.take('.stl');
  assert.match(path.basename(file), /size-l/i);
  near((await prove(file)).size[0], middle + 10, 0.6, 'crown diameter of size L');
  const all = unzip(await readFile(await bench.download(() => bench.page.locator('#take-run').click(), 'run.zip')));
  for (const [size, crown] of [['S', middle - 10], ['M', middle], ['L', middle + 10]]) {
    const stl = path.join(work, 'taken', `run-${size}.stl`);
    await writeFile(stl, all.get(`town-beret/town-beret-${size}/town-beret-${size}.stl`));
    near((await prove(stl)).size[0], crown, 0.6, `crown diameter of size ${size} in the zip of the run`);
  }
  assert.match(all.get('town-beret/town-beret.sizes.csv').toString(), /^size,/);
  await bench.put('mesh.chord_tolerance', '');
  assert.equal(await bench.saved('sizes.toml'), order, 'the order is not what it was');
  await bench.put('sizes.list', 'S\t55 cm\t26 cm\t6.6 cm\nXL\t61 cm\t12 cm\t7.2 cm');
  await bench.current();
  await bench.put('size-picked', 'XL');
  await bench.faultOf('sizes.list');
  await bench.put('size-picked', 'S');
  await bench.current();
  near(await bench.figure('Crown diameter'), middle - 10, 0.6, 'the crown of size S, 26 and not 27 cm');
});

tried('a panel measured at stations ends in a form of its widths', {}, async (bench) => {
  await bench.begin('panel');
  await bench.begin('stations');
  const rows = [[0, 0], [40, 33], [80, 66], [110, 91], [130, 104], [140, 107.5], [150, 106.5], [160, 102.5], [180, 89], [205, 72]];
  await bench.putAll({...coarse, 'pattern.panels': '8', 'cloth.name': 'fleece', 'pattern.stations': rows.map((row) => row.map((mm) => `${mm} mm`).join('\t')).join('\n')});
  await bench.current();
  const crown = await bench.figure('Crown diameter'), cloth = await bench.figure('Taken off for cloth');
  const {size} = await prove(await bench.take('.stl', 'stations.stl'));
  near(size[0], crown, 0.6, 'crown diameter as on the screen');
  // Eight widths round the middle of the cloth, which lies half its thickness off the form.
  near(size[0], 8 * 107.5 / Math.PI - cloth, 1.5, 'crown diameter of eight panels');
});

tried('a panel\'s drawing ends in a form of its widths', {}, async (bench) => {
  await bench.begin('panel');
  await bench.begin('outline');
  await bench.putAll({...coarse, 'cloth.name': 'wool-felt', 'pattern.panels': '8', 'pattern.seam_allowance': '3/8 in', 'pattern.layer': 'cut'});
  await bench.at('pattern.file').setInputFiles(path.join(source, 'samples/drawn-panel.svg'));
  await bench.page.locator('.held', {hasText: 'drawn-panel.svg'}).waitFor();
  await bench.current();
  const cloth = await bench.figure('Taken off for cloth');
  const {size} = await prove(await bench.take('.stl', 'outline.stl'));
  near(size[0], await bench.figure('Crown diameter'), 0.8, 'crown diameter as on the screen, told in sixteenths of an inch');
  // The cut line is 2 x 63.3 mm wide, 3/8 in of it on each side for the seams.
  near(size[0], 8 * (126.6 - 2 * 9.525) / Math.PI - cloth, 1.5, 'crown diameter of eight panels');
});

tried('two lengths of a panel end in a form of that crown', {}, async (bench) => {
  await bench.begin('panel');
  await bench.begin('lengths');
  await bench.putAll({...coarse, 'measure.crown_diameter': '27.8 cm', 'measure.taken_at': 'form', 'panel_lengths.top': '151 mm', 'panel_lengths.under': '72 mm'});
  const {size} = await prove(await bench.take('.stl', 'lengths.stl'));
  near(size[0], 278, 0.1, 'crown diameter as typed');
  near(await bench.figure('Tip to edge, along the form') + await bench.figure('Edge to head line, along it'), 151 + 72, 0.6, 'both lengths together');
});

tried('disc and ring end in a form of the sewn disc', {}, async (bench) => {
  await bench.begin('discs');
  await bench.putAll({...coarse, 'pattern.top_diameter': '30 cm', 'pattern.ring_diameter': '30 cm', 'pattern.ring_opening': '15.5 cm', 'pattern.seam_allowance': '1 cm'});
  await bench.current();
  const {size} = await prove(await bench.take('.stl', 'discs.stl'));
  near(size[0], await bench.figure('Crown diameter'), 0.6, 'crown diameter as on the screen');
  assert.ok(size[0] < 280 && size[0] > 240, `a disc of 30 cm, 1 cm sewn off all round, gives no form ${size[0]} mm wide`);
});

tried('depths of a dish end in a pad of that crown', {}, async (bench) => {
  await bench.begin('dish');
  await bench.putAll({...coarse, 'measure.crown_diameter': '25.4 cm', 'measure.rise': '5.4 cm', 'measure.taken_at': 'form', 'dish.readings': '0 mm; 0 mm\n40 mm; 1 mm\n80 mm; 4 mm\n110 mm; 9 mm\n140 mm; 18 mm', 'dish.gap': '3 mm'});
  await bench.current();
  assert.equal(await bench.at('form.kind').inputValue(), 'pad');
  near((await prove(await bench.take('.stl', 'dish.stl'))).size[0], 254, 0.1, 'crown diameter as typed');
});
