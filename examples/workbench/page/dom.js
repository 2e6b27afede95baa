// Elements are made here, and never out of text that is read as HTML.

export const $ = (id) => document.getElementById(id);

// el makes an element. What begins with on is a listener; undefined and false are left out.
export function el(tag, attributes = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) e.addEventListener(name.slice(2), value);
    else if (name in { value: 1, checked: 1, textContent: 1, className: 1, disabled: 1 }) e[name] = value;
    else if (value !== undefined && value !== false) e.setAttribute(name, value === true ? '' : value);
  }
  e.append(...children.flat().filter((c) => c !== undefined && c !== null && c !== false));
  return e;
}

// put sets a text only where it is another, so that nothing is laid out for nothing.
export function put(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

let waiting;

// say tells a screen reader, once it has been quiet for a moment.
export function say(text) {
  clearTimeout(waiting);
  waiting = setTimeout(() => put($('said'), text), 400);
}
