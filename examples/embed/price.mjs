// Prices shop documents with quoin inside Node, by the WASI module and nothing else.
//
//   node price.mjs quoin.wasm shop.json…       one line of JSON for each document
//   node price.mjs quoin.wasm --list shop.json    its prices, to read
import { readFileSync } from "node:fs";
import { argv, hrtime, stdout } from "node:process";
import { fileURLToPath } from "node:url";
import { WASI } from "node:wasi";

// load returns the call: it takes a document as bytes, and returns the reply as bytes.
export async function load(file) {
  const wasi = new WASI({ version: "preview1" });
  const { instance } = await WebAssembly.instantiate(readFileSync(file), wasi.getImportObject());
  wasi.initialize(instance);
  const { memory, quoin_alloc, quoin_free, quoin_price, quoin_version } = instance.exports;
  if (quoin_version() !== 1) throw new Error(`${file} gives replies of version ${quoin_version()}; this program reads version 1`);

  return (document) => {
    const from = quoin_alloc(document.length);
    new Uint8Array(memory.buffer).set(document, from >>> 0);
    const packed = BigInt.asUintN(64, quoin_price(from, document.length));
    const [to, size] = [Number(packed >> 32n), Number(packed & 0xffffffffn)];
    const reply = Buffer.from(Buffer.from(memory.buffer, to, size)); // a copy, out of memory that may have grown
    quoin_free(from);
    quoin_free(to);
    return reply;
  };
}

function list(reply) {
  const { answer, problems } = JSON.parse(reply);
  if (problems) return problems.map((p) => `${p.line ?? 0}:${p.column ?? 0}: ${p.path ?? ""}: ${p.found ?? ""}; wanted ${p.wanted ?? ""}`);
  if (answer.conflict) return [`These rules contradict each other: ${answer.conflict.join(", ")}`];
  return [...answer.products.map((p) => `${p.name ?? p.id}: ${p.price} ${answer.currency}`), ...answer.cautions];
}

async function main([module, ...files]) {
  const price = await load(module);
  if (files[0] === "--list") return stdout.write(list(price(readFileSync(files[1]))).join("\n") + "\n");
  if (files[0] === "--time") return stdout.write(`${time(price, Number(files[1]), readFileSync(files[2]))}\n`);
  for (const file of files) {
    stdout.write(price(readFileSync(file)));
    stdout.write("\n");
  }
}

// time is how many nanoseconds so many calls take.
function time(price, times, document) {
  const from = hrtime.bigint();
  for (let i = 0; i < times; i++) price(document);
  return hrtime.bigint() - from;
}

if (argv[1] === fileURLToPath(import.meta.url)) await main(argv.slice(2));
