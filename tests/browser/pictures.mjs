// Pictures of the screen to be looked at, and what must be on them.
import assert from 'node:assert/strict';
import path from 'node:path';
import {tried} from './support/bench.mjs';
import {source} from './support/program.mjs';

// These two are in the README.
const readme = {viewport: {width: 1240, height: 800}, looks: 'smooth'};

tried('the first view shows a form', readme, async (bench) => {
  await bench.picture('page-form.png');
  const inks = await bench.page.evaluate(() => {
    const canvas = document.getElementById('form-canvas'), copy = document.createElement('canvas');
    Object.assign(copy, {width: canvas.width, height: canvas.height});
    const pen = copy.getContext('2d');
    pen.drawImage(canvas, 0, 0);
    const {data} = pen.getImageData(0, 0, copy.width, copy.height), seen = new Set();
    let drawn = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i + 3] > 200) { ++drawn; seen.add(data[i] << 16 | data[i + 1] << 8 | data[i + 2]); }
    return {share: drawn / (data.length / 4), shades: seen.size};
  });
  assert.ok(inks.share > 0.1 && inks.share < 0.9, `the form fills ${inks.share} of its picture`);
  assert.ok(inks.shades > 20, `the form is drawn in ${inks.shades} shades only`);
});

tried('a puzzle block is shown apart, each piece by its name', readme, async (bench) => {
  const {page} = bench;
  await page.locator('#order-file').setInputFiles(path.join(source, 'samples/parade-puzzle.toml'));
  await page.locator('#notice', {hasText: 'is open'}).waitFor();
  await page.getByRole('button', {name: 'Put away'}).click();
  await page.locator('label[for="view.parts"]').click();
  await bench.current();
  // Five pieces and the ring they stand in.
  await page.locator('#form-words', {hasText: 'In 6 parts: ring, key'}).waitFor();
  const pixels = () => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(document.getElementById('form-canvas').toDataURL())))));
  const apart = await pixels();
  await page.mouse.move(0, 0);
  await bench.picture('page-parts.png');
  await page.locator('#apart').fill('0');
  const together = await pixels();
  assert.ok(apart !== together, 'the slider does not bring the parts together');
  await bench.at('view.form').check();
  await bench.current();
  await page.locator('#cut').check();
  const cut = await pixels();
  await page.locator('#cut-at').fill('60');
  assert.ok(cut !== await pixels(), 'the knife does not move');
  await bench.picture('cut.png');
});
