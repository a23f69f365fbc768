// A drawing or mesh that is attached. The page sends its content; no path of the person's disk goes anywhere.
import {make} from './dom.js';

const most = 2_800_000;  // bytes; written for the wire it must stay under 4 MB
const kinds = {'pattern.file': '.svg,.dxf', 'dish.file': '.stl,.obj,.ply,.off,.3mf'};

async function base64Of(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

export function fileField(key, context, describedBy) {
  const path = key.path;
  const input = make('input', {type: 'file', id: path, accept: kinds[path], 'aria-describedby': describedBy, onchange: take});
  const held = make('p', {class: 'held', hidden: true});
  const element = make('div', {class: 'attach'}, input, held);

  async function take() {
    const file = input.files[0];
    if (!file) return;
    if (file.size > most) {
      context.notice(`“${file.name}” is larger than ${most / 1e6} MB. Save it with less detail.`);
      input.value = '';
      return;
    }
    context.attach(path, {name: file.name, base64: await base64Of(file)});
  }

  return {element, target: input, show: (order, attachments) => {
    const file = attachments[path];
    held.hidden = !file;
    if (!file) {
      if (input.value !== '') input.value = '';
      return held.replaceChildren();
    }
    held.replaceChildren('Attached: ', make('strong', {}, file.name), ' ', make('button', {type: 'button', class: 'small', onclick: () => {
      input.value = '';
      context.attach(path, null);
    }}, 'Take it away'));
  }};
}
