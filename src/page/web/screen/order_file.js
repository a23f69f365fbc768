// The order file: opened from the person's disk, saved to it.
import {openOrder, saveOrder} from '../core/server.js';
import {announce, notice} from './announce.js';
import {sentence} from './fields.js';
import {hand} from './take_files.js';

const most = 1_000_000;

/** context: order(), begin(order), attachTo(key, name) asks for files that the order names. */
export function setUpOrderFile(context) {
  const input = document.getElementById('order-file');
  document.getElementById('open-order').addEventListener('click', () => input.click());
  document.getElementById('save-order').addEventListener('click', () => save(context));
  input.addEventListener('change', async () => {
    const file = input.files[0];
    input.value = '';
    if (file) await open(file, context);
  });
  document.addEventListener('dragover', (event) => { if (event.dataTransfer?.types.includes('Files')) event.preventDefault(); });
  document.addEventListener('drop', async (event) => {
    const file = event.dataTransfer?.files[0];
    if (!file || event.target.closest?.('input')) return;
    event.preventDefault();
    if (file.name.endsWith('.toml')) await open(file, context);
    else notice('Only an order file (.toml) can be dropped here; drawings and meshes are attached beside their field.');
  });
}

async function open(file, context) {
  if (file.size > most) return notice(`“${file.name}” is too large for an order file.`);
  const answer = await openOrder(await file.text());
  if (!answer.ok) {
    const {what, allowed, where} = answer.fault;
    return notice(`“${file.name}” is no order that can be opened. ${sentence([where, what].filter(Boolean).join(': '))} ${sentence(allowed ?? '')}`);
  }
  context.begin(answer.order);
  announce(`The order in ${file.name} is open.`);
  return notice(context.missing() ?? `“${file.name}” is open.`);
}

async function save(context) {
  const answer = await saveOrder(context.order());
  if (!answer.ok) {
    context.showFault(answer.fault);
    return notice(`The order cannot be saved yet. ${sentence(answer.fault.what)} ${sentence(answer.fault.allowed ?? '')}`);
  }
  hand(new Blob([answer.toml], {type: 'application/toml'}), answer.file);
  return notice(`${answer.file} is with your browser's downloads.`);
}
