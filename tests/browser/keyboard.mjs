// The whole job with Tab, arrows and Enter alone.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {near, tried} from './support/bench.mjs';
import {prove} from './support/program.mjs';

/** Where the focus is, and whether an eye sees it. */
function focusNow() {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const seen = (style) => style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  const way = one.closest('.way'), plate = one.querySelector('.m-plate');
  const isShown = one.matches('.m-dim') ? parseFloat(getComputedStyle(plate).strokeWidth) >= 2 && getComputedStyle(plate).stroke !== 'none' : seen(getComputedStyle(one)) || way !== null && seen(getComputedStyle(way));
  const box = (way ?? plate ?? one).getBoundingClientRect();
  const x = Math.min(Math.max(box.left + Math.min(box.width, 24) / 2, 0), innerWidth - 1), y = Math.min(Math.max(box.top + Math.min(box.height, 24) / 2, 0), innerHeight - 1);
  const top = document.elementFromPoint(x, y);
  const isInSight = box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth && top !== null && (one.contains(top) || top.contains(one) || (way?.contains(top) ?? false) || top.closest('label')?.control === one);
  const name = one.id || one.dataset.dimension || one.dataset.ending || one.dataset.look || one.dataset.shape || `${one.tagName} ${one.textContent.trim().slice(0, 30)}`;
  return {name, isShown, isInSight, kind: one.tagName};
}

/** Presses Tab until the focus is there; every stop on the way must be seen. The names of the stops. */
async function tabTo(bench, name, key = 'Tab') {
  const stops = [];
  for (let presses = 0; presses < 250; ++presses) {
    await bench.page.keyboard.press(key);
    const stop = await bench.page.evaluate(focusNow);
    if (stop === null) { stops.push('(none)'); continue; }
    assert.ok(stop.isShown, `the focus is not to be seen at ${stop.name}`);
    assert.ok(stop.isInSight, `the focus is out of sight or covered at ${stop.name}`);
    stops.push(stop.name);
    if (stop.name === name) return stops;
  }
  return assert.fail(`Tab never comes to ${name}; it went ${stops.join(', ')}`);
}

async function typeOver(bench, text) {
  await bench.page.keyboard.press('Control+a');
  await bench.page.keyboard.type(text);
}

tried('the keyboard alone goes from the loaded page to a saved order and a form', {}, async (bench) => {
  const {page} = bench, {keyboard} = page;
  await keyboard.press('Tab');
  await keyboard.press('Enter');  // to the order, past the head of the page
  assert.equal(await page.evaluate(() => document.activeElement.id), 'order');
  assert.ok(await page.locator('#notice').isHidden(), 'a way to a place on the page is taken for an order');
  await tabTo(bench, 'begin.measures');
  await keyboard.press('ArrowDown');
  await keyboard.press('ArrowUp');
  await tabTo(bench, 'measure.head_girth');
  await typeOver(bench, '56 cm');
  await tabTo(bench, 'measure.crown_diameter');
  await typeOver(bench, '27 cm');
  await keyboard.press('ArrowUp');  // by a millimetre
  await tabTo(bench, 'measure.rise');
  await typeOver(bench, '7 cm');
  await keyboard.press('Tab');
  await keyboard.press('Shift+Tab');
  await tabTo(bench, 'SUMMARY More about the measures');
  await keyboard.press('Enter');
  await tabTo(bench, 'measure.taken_at');
  await keyboard.type('form');
  await keyboard.press('Enter');
  await keyboard.press('Escape');
  await tabTo(bench, 'form.collar');
  await typeOver(bench, '2 cm');
  await tabTo(bench, '.stl');
  await bench.current();
  const {size} = await prove(await bench.download(() => keyboard.press('Enter'), 'keyboard.stl'));
  near(size[0], 271, 0.1, 'crown diameter as typed, and a step up');
  near(size[2], 90, 0.1, 'rise and collar as typed');

  await tabTo(bench, 'save-order', 'Shift+Tab');  // all the way back
  const order = await readFile(await bench.download(() => keyboard.press('Enter'), 'keyboard.toml'), 'utf8');
  for (const line of ['head_girth = "56 cm"', 'crown_diameter = "27.1 cm"', 'rise = "7 cm"', 'taken_at = "form"', 'collar = "2 cm"']) assert.ok(order.includes(line), `${line} is not in the saved order: ${order}`);
});

tried('the form is turned, and dimensions are moved, with the arrow keys', {}, async (bench) => {
  const {page} = bench;
  const pixels = () => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(document.getElementById('form-canvas').toDataURL())))));
  await page.locator('#form-stage').focus();
  await page.keyboard.press('Home');
  const first = await pixels();
  await page.keyboard.press('ArrowUp');
  const turned = await pixels();
  assert.ok(turned !== first, 'the arrow keys do not turn the form');
  await page.keyboard.press('Home');
  assert.ok(await pixels() === first, 'Home does not turn it back');
  await tabTo(bench, 'measure.rise');
  await page.keyboard.press('ArrowUp');
  await bench.current();
  assert.equal(await bench.at('measure.rise').inputValue(), '7.6 cm');
  await page.keyboard.press('Enter');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'measure.rise', 'Enter on a dimension does not go to its field');
});
