// One print: its picture, the slider, and what a price brings.

import { $, el, put, say } from './dom.js';
import { ask } from './engine.js';
import { Picture, drawn } from './picture.js';

const states = { kept: ['✓', 'kept'], broken: ['✗', 'broken'], silent: ['·', 'says nothing: it has too little to go by'], dropped: ['~', 'a wish that was given up'] };

export class Print {
  constructor(writeRule) {
    this.picture = new Picture($('picture'), $('slider'));
    this.writeRule = writeRule;
    const slider = $('slider'), number = $('number');
    slider.addEventListener('input', () => this.step(`#${slider.value}`, $('all').checked ? 'as_is' : 'nearest'));
    slider.addEventListener('keydown', (e) => this.key(e, { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }));
    number.addEventListener('keydown', (e) => this.key(e, { ArrowUp: 1, ArrowDown: -1 }));
    number.addEventListener('change', () => this.step(number.value, 'as_is'));
    $('lower').addEventListener('click', () => this.beside(-1));
    $('higher').addEventListener('click', () => this.beside(1));
    $('back').addEventListener('click', () => this.back());
    $('pin').addEventListener('click', () => this.pin());
    $('story').addEventListener('toggle', () => this.story());
    $('more').addEventListener('toggle', () => this.more());
  }

  key(e, ways) {
    if (!ways[e.key]) return;
    e.preventDefault();
    this.beside(ways[e.key]);
  }

  // beside goes to the next price to a side: the next allowed one, unless all are asked for.
  beside(side) {
    const all = $('all').checked || !this.product.price;
    this.step(`#${this.at}`, all ? (side > 0 ? 'next_step' : 'prior_step') : (side > 0 ? 'next' : 'previous'));
  }

  back() {
    this.moved = false;
    this.look(`#${this.product.at}`, 'as_is');
  }

  step(price, how) {
    const begun = performance.now();
    this.moved = true;
    this.look(price, how);
    performance.measure('quoin:step', { start: begun });
  }

  // show takes the print with an id out of a list, at the price of the list unless another was
  // being looked at.
  show(list, id) {
    const same = this.product?.id === id && this.moved;
    this.product = list.products.find((p) => p.id === id);
    $('one').hidden = !this.product;
    if (!this.product) return;
    this.moved = same;
    put($('one-name'), this.product.name);
    put($('currency'), list.currency);
    const slider = $('slider');
    slider.min = this.product.from;
    slider.max = this.product.to;
    this.picture.show(this.product, list.step);
    $('pinned').replaceChildren();
    this.look(`#${same ? this.at : this.product.at}`, 'as_is');
    this.reasons();
    $('more').hidden = $('story').hidden = !this.product.price;
    this.told = this.shown = '';
    $('story').querySelector('pre').textContent = ''; // nothing of another print
    $('more').querySelector('div').replaceChildren();
    this.story();
    this.more();
  }

  look(price, how) {
    const v = ask('look', this.product.id, price, how);
    const number = $('number');
    number.toggleAttribute('aria-invalid', Boolean(v.problems));
    if (v.problems) {
      put($('allowed'), `${v.problems[0].text} The price shown stays ${this.price}.`);
      return;
    }
    this.at = v.at;
    this.price = v.price;
    const slider = $('slider');
    slider.value = v.at;
    slider.setAttribute('aria-valuetext', `${v.price}, ${v.allowed ? 'allowed' : 'not allowed'}`);
    if (number.value !== v.price) number.value = v.price;
    $('back').disabled = v.at === this.product.at;
    this.picture.mark(v);
    put($('allowed'), allowed(v, this.product));
    $('allowed').className = v.allowed ? 'allowed yes' : 'allowed no';
    this.rows(v);
    this.verdicts(v.rules);
    const notes = v.notes ?? [];
    if (notes.join() !== this.notes) $('notes').replaceChildren(...notes.map((n) => el('p', { class: 'note' }, n)));
    this.notes = notes.join();
    if (this.moved) say(spoken(v));
  }

  // rows fills the table of where the price goes, and builds it only where it has other lines.
  rows(v) {
    const shape = JSON.stringify([v.channels, v.rows.map((r) => r.label)]);
    if (shape !== this.rowsShape) {
      this.rowsShape = shape;
      const head = el('tr', {}, el('td', {}), ...v.channels.map((c) => el('th', { scope: 'col' }, c)));
      const body = v.rows.map((r) => el('tr', { class: r.total ? 'total' : '' }, el('th', { scope: 'row' }, r.label), ...r.cells.map(() => el('td', {}))));
      $('keeps').replaceChildren(el('thead', {}, head), el('tbody', {}, ...body));
      this.cells = body.map((tr) => [...tr.querySelectorAll('td')]);
    }
    v.rows.forEach((r, i) => r.cells.forEach((text, n) => {
      const cell = this.cells[i][n], loss = r.loss?.[n] ? 'loss' : '';
      put(cell, text);
      if (cell.className !== loss) cell.className = loss;
    }));
  }

  verdicts(rules) {
    const shape = JSON.stringify(rules.map((r) => [r.rule, r.words, (r.checks ?? []).map((c) => c.where)]));
    if (shape !== this.rulesShape) {
      this.rulesShape = shape;
      this.judged = rules.map((r) => this.judge(r));
      $('verdicts').replaceChildren(...this.judged.map((j) => j.li));
    }
    rules.forEach((r, i) => {
      const j = this.judged[i], [sign, word] = states[r.state];
      if (j.li.className !== r.state) j.li.className = r.state;
      put(j.sign, sign);
      put(j.word, word);
      (r.checks ?? []).forEach((c, n) => {
        const k = j.checks[n];
        if (k.li.className !== (c.ok ? 'ok' : 'not')) k.li.className = c.ok ? 'ok' : 'not';
        put(k.text, `asks ${c.asked}, gets ${c.got}`);
        put(k.sign, c.ok ? '' : ' ✗');
      });
    });
  }

  judge(r) {
    const sign = el('span', { class: 'sign', 'aria-hidden': 'true' }), word = el('span', { class: 'state' });
    const checks = (r.checks ?? []).map((c) => {
      const text = el('span', {}), bad = el('span', { 'aria-hidden': 'true' });
      return { li: el('li', {}, c.where ? el('span', { class: 'where' }, `${c.where}: `) : '', text, bad), text, sign: bad };
    });
    const what = el('span', { class: 'what' }, el('strong', {}, r.rule), ' ', el('span', { class: 'sub' }, r.words + (r.wish ? ', a wish' : '')));
    const head = el('p', {}, sign, what, ' ', word);
    return { li: el('li', {}, head, checks.length > 0 && el('ul', {}, ...checks.map((c) => c.li))), sign, word, checks };
  }

  reasons() {
    const lines = ask('reasons', this.product.id) ?? [];
    const out = (Array.isArray(lines) ? lines : []).map((line) => {
      const deep = /^ */.exec(line)[0].length / 2;
      return el('p', { class: deep === 0 ? 'question' : `deep-${Math.min(deep, 4)}` }, line.trim());
    });
    $('reasons').replaceChildren(...(out.length ? out : [el('p', {}, 'There is no price yet.')]));
  }

  // story is long, and written only where somebody reads it.
  story() {
    const part = $('story');
    if (!part.open || this.told === this.product?.id) return;
    this.told = this.product.id;
    part.querySelector('pre').textContent = ask('story', this.product.id);
  }

  // more are the other pictures, drawn only where somebody looks at them.
  more() {
    const part = $('more');
    if (!part.open || this.shown === this.product?.id) return;
    this.shown = this.product.id;
    const all = ['goes', 'market'].map((kind) => drawn(this.product.id, kind)).filter(Boolean);
    part.querySelector('div').replaceChildren(...(all.length ? all : [el('p', {}, 'There is nothing more to draw.')]));
  }

  pin() {
    const p = ask('pin', this.product.id, this.price);
    const out = [];
    if (p.problems) out.push(el('p', {}, p.problems[0].text));
    else if (p.holds) {
      out.push(el('p', { class: 'yes' }, `${p.price} holds: every rule that must be kept is kept.`));
      for (const m of p.moved ?? []) out.push(el('p', {}, `${m.name} goes from ${m.from} to ${m.to}.`));
      for (const d of p.dropped ?? []) out.push(el('p', {}, `The wish “${d}” is given up for it.`));
      if (!p.moved && !p.dropped) out.push(el('p', {}, 'No other price changes, and no wish is given up.'));
    } else out.push(el('p', { class: 'no' }, `${p.price} does not hold. Something has to give:`), el('p', { class: 'conflict' }, p.conflict));
    const write = () => this.writeRule(p.id, p.rule);
    if (!p.problems) {
      out.push(el('p', {}, el('button', { type: 'button', id: 'write', onclick: write }, 'Write it into the rules'), ' ',
        el('button', { type: 'button', id: 'leave', onclick: () => { $('pinned').replaceChildren(); $('pin').focus(); } }, 'Leave it')));
    }
    $('pinned').replaceChildren(...out);
  }
}

function allowed(v, product) {
  const near = [v.previous && `${v.previous} below`, v.next && `${v.next} above`].filter(Boolean).join(', ');
  if (!product.price) return 'No price fits all rules; this one is shown to see what it brings.';
  const beside = near ? ` Next allowed: ${near}.` : ' No other price is allowed.';
  return (v.allowed ? `All rules allow ${v.price}.` : `A rule says no to ${v.price}.`) + beside;
}

function spoken(v) {
  const left = v.rows.find((r) => r.label === 'stays with you');
  const broken = v.rules.filter((r) => r.state === 'broken').map((r) => r.rule);
  const keeps = left ? v.channels.map((c, i) => `${c} ${left.cells[i]}`).join(', ') : '';
  return `At ${v.price} stays with you: ${keeps}. ${broken.length ? `Broken: ${broken.join(', ')}.` : 'All rules are kept.'}`;
}
