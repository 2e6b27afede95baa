// The engine: text goes in, an object comes out.

let ready;

// start loads the engine and resolves when it takes calls.
export async function start() {
  const go = new globalThis.Go();
  const running = new Promise((resolve) => { globalThis.quoinReady = resolve; });
  const { instance } = await WebAssembly.instantiateStreaming(fetch('engine.wasm'), go.importObject);
  go.run(instance);
  await running;
  ready = true;
}

// ask makes one call. Where it is refused the result has problems.
export function ask(call, ...texts) {
  if (!ready) return { problems: [{ text: 'The engine is not ready.' }] };
  return JSON.parse(globalThis.quoin(call, ...texts));
}
