// What is asked of the program behind the page. All of it is JSON but the files themselves.

async function post(path, body, signal) {
  return fetch(path, {method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify(body), signal});
}

const lost = {ok: false, fault: {exit: 1, where: '', what: 'The program behind this page does not answer.', allowed: 'Start “crownwright page” again; what you typed is kept in the address.'}};

/** The answer, or a fault in the same shape when there is none. An aborted question throws. */
async function answer(path, body, signal) {
  try {
    const response = await post(path, body, signal);
    return await response.json();
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    return lost;
  }
}

export async function workshop() {
  const response = await fetch('/api/workshop');
  if (!response.ok) throw new Error(`workshop: ${response.status}`);
  return response.json();
}

function question(order, attachments, more = {}) {
  return Object.keys(attachments).length === 0 ? {order, ...more} : {order, attachments, ...more};
}

export const preview = (order, attachments, view, signal) => answer('/api/preview', question(order, attachments, {view}), signal);
export const openOrder = (toml) => answer('/api/open', {toml});
export const saveOrder = (order) => answer('/api/save', {order});

/** {blob, name} of one file, or of the zip with all when no ending is given; or {fault}. */
export async function take(order, attachments, ending, signal) {
  let response;
  try {
    response = ending ? await post('/api/file', question(order, attachments, {ending}), signal) : await post('/api/make', question(order, attachments), signal);
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    return {fault: lost.fault};
  }
  if (response.ok) return {blob: await response.blob(), name: nameIn(response) ?? `form${ending ?? '.zip'}`};
  try {
    return {fault: (await response.json()).fault};
  } catch {
    return {fault: {...lost.fault, what: `The program answered with error ${response.status}.`}};
  }
}

function nameIn(response) {
  const found = (response.headers.get('Content-Disposition') ?? '').match(/filename="?([^";]+)"?/);
  return found ? found[1].replace(/[\\/]/g, '-') : null;
}
