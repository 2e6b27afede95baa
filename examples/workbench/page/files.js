// Documents are opened and saved as files; nothing is sent anywhere.

import { $, say } from './dom.js';
import { save } from './prices.js';

const most = 1_000_000; // bytes of a document

// files makes the buttons and the whole page take documents. opened is called with a text and a
// name, current returns the text to save.
export function files(opened, current) {
  let name = 'shop.json';
  const take = async (file) => {
    if (!file) return;
    if (file.size > most) {
      say(`${file.name} is longer than a document may be, one megabyte.`);
      return;
    }
    name = file.name;
    opened(await file.text(), `${name} was opened`);
  };
  $('open').addEventListener('click', () => $('file').click());
  $('file').addEventListener('change', (e) => {
    take(e.target.files[0]);
    e.target.value = '';
  });
  $('save').addEventListener('click', () => {
    save(name, 'application/json', current());
    say(`${name} was saved`);
  });
  const drop = $('drop');
  const carries = (e) => [...(e.dataTransfer?.types ?? [])].includes('Files');
  addEventListener('dragover', (e) => {
    if (!carries(e)) return;
    e.preventDefault();
    drop.hidden = false;
  });
  addEventListener('dragleave', (e) => { if (!e.relatedTarget) drop.hidden = true; });
  addEventListener('drop', (e) => {
    if (!carries(e)) return;
    e.preventDefault();
    drop.hidden = true;
    take(e.dataTransfer.files[0]);
  });
  $('begin').addEventListener('change', async (e) => {
    const choice = e.target.value;
    e.target.value = '';
    if (!choice) return;
    name = 'shop.json';
    opened(await beginning(choice), 'a new beginning');
  });
}

const loaded = {};

// beginning is the text of an example. Both are fetched when the page is, and not later.
export function beginning(name) {
  loaded[name] ??= fetch(name).then((r) => r.text());
  return loaded[name];
}
