// For those who listen, for printers in grey, and for eyes that tell no colours apart.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {createRequire} from 'node:module';
import {address, tried} from './support/bench.mjs';
import {ask} from './support/program.mjs';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** `parts`: what has changed since the last look, or all of the page. */
async function faultless(bench, state, parts = null) {
  const {page} = bench;
  if (!await page.evaluate(() => 'axe' in window)) await page.evaluate(axe);
  const faults = await page.evaluate(async (include) => {
    const {violations} = await window.axe.run(include ? {include} : document, {resultTypes: ['violations']});
    return violations.filter((one) => ['serious', 'critical'].includes(one.impact)).map((one) => `${one.impact} ${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`);
  }, parts);
  assert.deepEqual(faults, [], state);
}

tried('axe finds no serious fault in the first view, with all open, nor with something wrong', {}, async (bench) => {
  const {page} = bench;
  await faultless(bench, 'first view');
  for (const table of ['puzzle', 'draft', 'press', 'stack', 'marks', 'mill', 'sizes', 'band']) await bench.put(table, true);
  await page.evaluate(() => { for (const fold of document.querySelectorAll('details')) fold.open = true; });
  await faultless(bench, 'all open');
  await bench.put('measure.rise', 'seven');
  await bench.faultOf('measure.rise');
  await faultless(bench, 'with a fault', ['#drawings', '#findings', '[data-key="measure.rise"]', '#group-take']);
});

tried('axe finds no serious fault in any way in', {}, async (bench) => {
  for (const way of ['panel', 'outline', 'lengths', 'discs', 'dish']) {
    await bench.begin(way);
    if (way === 'outline') await bench.faultOf('pattern.file');
    else await bench.current();
    await faultless(bench, way, ['#group-begin', '#drawings', '#findings']);
  }
});

tried('every key of the order has its field and a label, and no id stands twice', {}, async (bench) => {
  const {keys} = await ask(address(), '/api/workshop');
  assert.ok(keys.length > 100, `only ${keys.length} keys`);
  const lacks = await bench.page.evaluate((paths) => {
    const textOf = (one) => one.textContent.trim();
    const named = (one) => [...(one.labels ?? [])].map(textOf).join('') || (one.getAttribute('aria-labelledby') ?? '').split(' ').map((id) => textOf(document.getElementById(id) ?? new Text())).join('');
    const found = [];
    for (const path of paths) {
      const field = document.getElementById(path);
      if (!field) found.push(`${path} has no field`);
      else if (named(field) === '') found.push(`${path} has no label`);
      else if (!field.getAttribute('aria-describedby')?.split(' ').every((id) => document.getElementById(id))) found.push(`${path} is described by nothing`);
    }
    const ids = [...document.querySelectorAll('[id]')].map((one) => one.id);
    for (const id of new Set(ids.filter((one, i) => ids.indexOf(one) !== i))) found.push(`the id ${id} stands twice`);
    return found;
  }, keys.map((key) => key.path).filter((path) => path !== 'pattern.kind'));
  assert.deepEqual(lacks, []);
});

/** Sees the cards and signs without their colours. */
function cardsWithoutWord() {
  return [...document.querySelectorAll('.card')].filter((card) => card.checkVisibility() && !/\b(Good|Mind|Will not do|Not yet an order|No such form exists)\b/.test(card.querySelector('h3')?.innerText ?? '')).map((card) => card.innerText.slice(0, 80));
}

tried('a verdict is told in words, not by its colour alone', {}, async (bench) => {
  const {page} = bench;
  // Cloth that eases in little, and few panels of it.
  await bench.putAll({'cloth.name': 'melton', 'pattern.panels': '4'});
  await bench.current();
  const tones = await page.evaluate(() => [...document.querySelectorAll('.card')].map((card) => card.className));
  assert.ok(tones.length >= 2 && tones.some((tone) => tone.includes('bad')), `no bad verdict: ${tones}`);
  assert.deepEqual(await page.evaluate(cardsWithoutWord), []);
  await bench.put('measure.rise', '-7 cm');
  await bench.faultOf('measure.rise');
  assert.deepEqual(await page.evaluate(cardsWithoutWord), []);
});

tried('on paper nothing is dark but ink, and buttons are left out', {}, async (bench) => {
  const {page} = bench;
  await page.emulateMedia({media: 'print'});
  const found = await page.evaluate(() => {
    const dark = [];
    for (const one of document.querySelectorAll('body, body *')) {
      if (!one.checkVisibility() || one.closest('svg')) continue;
      const [red, green, blue, alpha = 1] = getComputedStyle(one).backgroundColor.match(/[\d.]+/g).map(Number);
      // sRGB's relative luminance (WCAG 2.2) of the ground over white paper.
      const [r, g, b] = [red, green, blue].map((part) => { const c = (part * alpha + 255 * (1 - alpha)) / 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; });
      if (0.2126 * r + 0.7152 * g + 0.0722 * b < 0.75) dark.push(`${one.tagName} ${one.id || one.className}`);
      if (one.matches('button, dialog, nav')) dark.push(`${one.tagName} ${one.id || one.textContent} is printed`);
      if (one.matches('p, h3, .tone, th, td, label')) {
        const ink = getComputedStyle(one).color.match(/[\d.]+/g).slice(0, 3).map(Number);
        if (Math.max(...ink) - Math.min(...ink) > 8) dark.push(`${one.tagName} ${one.className} is printed in colour`);
      }
    }
    return dark;
  });
  assert.deepEqual(found, []);
  assert.deepEqual(await page.evaluate(cardsWithoutWord), []);
  const {writeFile} = await import('node:fs/promises');
  const {work} = await import('./support/program.mjs');
  await writeFile(`${work}/pictures/printed.pdf`, await page.pdf({format: 'A4'}));
});
