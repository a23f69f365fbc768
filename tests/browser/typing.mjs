// What people type that means nothing gets a word beside the field, and mending it brings the picture back.
import assert from 'node:assert/strict';
import {tried} from './support/bench.mjs';

const nonsense = {
  'no unit': '7.5', letters: 'abc', 'a negative length': '-3 cm', 'an absurd length': '99999 km', emoji: '🧶🎩', 'ten thousand characters': 'x'.repeat(10_000),
  'more than a number can be': '1e999 cm', 'no number': 'NaN cm', 'two points': '7.5.5 cm', 'nothing halved': '5/0 in', markup: '<img src=x onerror=alert(1)>', 'an order line': '7 cm"\n[form]\nkind = "pad',
};
const short = ['letters', 'a negative length', 'emoji'];
// Typed in fields of every kind; in the first of them all that people have thought of.
const fields = [
  [{'measure.rise': Object.keys(nonsense)}, 'a length'],
  [{'measure.head_girth': ['no unit', ...short], 'measure.crown_diameter': ['an absurd length', ...short], 'shape.edge_radius': short}, 'lengths'],
  [{'form.collar': short, 'vents.diameter': short, 'form.wall': short}, 'lengths of the form'],
  [{'pattern.panels': [...short, 'ten thousand characters'], 'print.infill': ['letters', 'emoji'], 'cloth.heat_shrink': short, 'print.bed': ['letters', 'emoji']}, 'figures'],
];

for (const [keys, what] of fields) {
  tried(`nonsense in ${what} is told beside it, and mending it brings the picture back`, {looks: 'none'}, async (bench) => {
    assert.ok(await bench.page.locator('#no-3d').isVisible(), 'nothing says that there is no picture in 3D');
    const drawing = () => bench.page.locator('#meridian').innerHTML();
    const first = await drawing();
    for (const [key, kinds] of Object.entries(keys)) {
      await bench.unfold(key);
      const good = await bench.at(key).inputValue();
      for (const kind of kinds) {
        await bench.put(key, nonsense[kind]);
        const said = await bench.faultOf(key);
        assert.ok(said.trim().length > 10, `${key}, ${kind}: says only “${said}”`);
        assert.ok(said.length < 1000, `${key}, ${kind}: says ${said.length} characters`);
        assert.equal(await bench.at(key).getAttribute('aria-invalid'), 'true', `${key}, ${kind}: is not marked as wrong`);
        assert.ok((await bench.at(key).getAttribute('aria-describedby')).split(' ').includes(`${key}.fault`), `${key}: the word is not tied to the field`);
        assert.ok(await bench.page.locator('#stale').isVisible(), `${key}, ${kind}: the old picture is not told from a current one`);
        await bench.put(key, good);
        await bench.current();
        assert.ok(await bench.at(`${key}.fault`).isHidden(), `${key}, ${kind}: the word stays when the field is right again`);
        assert.equal(await bench.at(key).getAttribute('aria-invalid'), null, `${key}: stays marked as wrong`);
      }
    }
    assert.equal(await drawing(), first, 'the drawing is not what it was before');
  });
}

tried('a bare number is mended by the unit that is offered beside it', {}, async (bench) => {
  await bench.put('measure.rise', '7');
  await bench.faultOf('measure.rise');
  await bench.at('measure.rise.fault').getByRole('button', {name: 'cm'}).click();
  await bench.current();
  assert.equal(await bench.at('measure.rise').inputValue(), '7 cm');
});

tried('a form that cannot be is told beside the value just changed, and each way out that is offered leads to one that can', {looks: 'none'}, async (bench) => {
  for (const [key, value, least] of [['measure.rise', '3 cm', 2], ['shape.edge_radius', '90 mm', 2], ['measure.crown_diameter', '15 cm', 2], ['measure.head_girth', '35 in', 2]]) {
    const good = await bench.at(key).inputValue();
    for (let way = 0; way < least; ++way) {
      await bench.put(key, value);
      assert.match(await bench.faultOf(key), /\d/);
      assert.equal(await bench.at(key).getAttribute('aria-invalid'), 'true');
      const offered = bench.page.locator('#fault .try');
      assert.ok(await offered.count() >= least, `${key} = ${value}: ${await offered.count()} ways out`);
      await offered.nth(way).click();
      await bench.current();
      await bench.page.locator('#undo').click();
      await bench.put(key, good);
      await bench.current();
    }
  }
});

tried('what is typed keeps its focus and its place while pictures come', {}, async (bench) => {
  const {page} = bench, field = bench.at('measure.rise');
  await field.fill('');
  await field.focus();
  for (const sign of '7.25 cm') {
    await page.keyboard.type(sign);
    await page.waitForTimeout(60);
  }
  await bench.current();
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Delete');
  await page.keyboard.type(',');
  await bench.current();
  assert.deepEqual(await page.evaluate(() => [document.activeElement.id, document.activeElement.selectionStart, document.activeElement.value]), ['measure.rise', 2, '7,25 cm']);
  // A change that is taken from a verdict takes its button away; the keyboard stays there.
  await page.locator('#cards .try').first().focus();
  await page.keyboard.press('Enter');
  await bench.current();
  assert.equal(await page.evaluate(() => document.activeElement?.closest('#findings') !== null), true, 'the keyboard is thrown out of the verdicts');
});

tried('nonsense in the list of widths is told beside it', {looks: 'none'}, async (bench) => {
  await bench.begin('panel');
  await bench.current();
  await bench.unfold('pattern.stations');
  const good = await bench.at('pattern.stations').inputValue();
  for (const text of ['abc', '10 mm\t20', '🧶\t🎩', '[["0 mm", "0 mm"]', `${'9'.repeat(5000)} mm\t1 mm`]) {
    await bench.put('pattern.stations', text);
    await bench.page.locator('[data-key="pattern.stations"] .fault:visible').first().waitFor();
    await bench.put('pattern.stations', good);
    await bench.current();
  }
});

tried('a name of ten thousand characters and signs is borne', {}, async (bench) => {
  await bench.put('name', '🎩"\\ \u202e</script>'.repeat(600));
  await bench.page.waitForFunction(() => document.body.matches(':not(.behind), .wrong'));
  if (await bench.page.locator('body.wrong').count() > 0) await bench.faultOf('name');
  await bench.put('name', 'Zoë’s “best” béret 🎩');
  await bench.current();
  assert.match(await bench.saved('zoe.toml'), /Zoë’s “best” béret 🎩/);
});
