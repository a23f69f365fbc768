// A tablet, upright and lying, by touch.
import assert from 'node:assert/strict';
import {near, tried} from './support/bench.mjs';
import {prove} from './support/program.mjs';

/** What is wider than the screen, and what a finger can hardly hit (WCAG 2.2, 2.5.8: 24 px; links within a sentence are let off). */
function tooWideOrSmall() {
  const found = [], wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) found.push(`the page is ${document.documentElement.scrollWidth} px wide on a screen of ${wide}`);
  for (const one of document.querySelectorAll('button, input, select, textarea, summary, a[href], [role=slider], [tabindex="0"]')) {
    if (!one.checkVisibility({visibilityProperty: true}) || one.closest('.unseen, .skip') || one.matches('.unseen')) continue;
    const boxes = [one, ...(one.labels ?? [])].map((part) => (part.querySelector?.('.m-plate') ?? part).getBoundingClientRect()).filter((box) => box.width > 0);
    if (boxes.length === 0) continue;
    const wideEnough = Math.max(...boxes.map((box) => box.width)), tall = Math.max(...boxes.map((box) => box.height));
    const name = one.id || one.dataset.dimension || `${one.tagName} ${one.textContent.trim().slice(0, 40)}`;
    if (boxes[0].left < -1 || boxes[0].right > wide + 1) found.push(`${name} reaches from ${boxes[0].left} to ${boxes[0].right} px`);
    if (one.matches('p a')) continue;
    if (one.matches('.m-dim')) {
      // Drawn dimensions are no boxes: tried point by point, where they are on the screen.
      const box = one.querySelector('.m-plate').getBoundingClientRect(), x = box.left + box.width / 2, y = box.top + box.height / 2;
      const hit = (dx, dy) => y + dy < 0 || y + dy >= innerHeight || document.elementFromPoint(x + dx, y + dy)?.closest('.m-dim') === one;
      if (![[0, 0], [0, -11.5], [0, 11.5], [-11.5, 0], [11.5, 0]].every(([dx, dy]) => hit(dx, dy))) found.push(`${name} is missed by a finger 24 px wide`);
      continue;
    }
    if (wideEnough < 24 || tall < 24) found.push(`${name} is ${wideEnough.toFixed(1)} x ${tall.toFixed(1)} px`);
  }
  return found;
}

const upright = {width: 820, height: 1180}, lying = {width: 1180, height: 820};
const tables = ['puzzle', 'draft', 'press', 'stack', 'marks', 'mill', 'sizes', 'band'];

tried('a tablet shows all of it, upright and lying, and makes a form by touch', {viewport: upright, hasTouch: true, isMobile: true, deviceScaleFactor: 1}, async (bench) => {
  const {page} = bench;
  const fits = async (state) => assert.deepEqual(await page.evaluate(tooWideOrSmall), [], state);
  assert.ok(await page.evaluate(() => matchMedia('(pointer: coarse)').matches), 'the browser plays no tablet');
  await bench.picture('tablet-upright.png');
  await fits('upright');
  await page.setViewportSize(lying);
  await bench.picture('tablet-lying.png');
  await fits('lying');
  await bench.at('begin.panel').tap();
  await bench.current();
  await fits('lying, with a panel');
  await page.setViewportSize(upright);
  await fits('upright, with a panel');
  await bench.at('begin.measures').tap();
  await bench.at('measure.crown_diameter').tap();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('26.5 cm');
  await page.locator('summary', {hasText: 'More about the measures'}).tap();
  await bench.at('measure.taken_at').selectOption('form');
  for (const table of tables) await bench.at(table).tap();
  await page.evaluate(() => { for (const fold of document.querySelectorAll('details')) fold.open = true; });
  await fits('upright, with all of it open');
  await page.setViewportSize(lying);
  await fits('lying, with all of it open');
  for (const table of tables) await bench.at(table).tap();
  await bench.current();
  const file = await bench.download(() => page.locator('[data-ending=".stl"]').tap(), 'tablet.stl');
  near((await prove(file)).size[0], 265, 0.1, 'crown diameter as typed');
});
