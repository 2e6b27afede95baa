// Runs a WASI program with Node's own WASI: node wasip1.mjs PROGRAM ARG...
import { readFile } from "node:fs/promises";
import { argv, cwd, env, exit } from "node:process";
import { WASI } from "node:wasi";

const [program, ...args] = argv.slice(2);
const wasi = new WASI({
  version: "preview1",
  args: [program, ...args],
  env: { ...env, PWD: cwd() },
  preopens: { "/": "/" },
  returnOnExit: true,
});
const module = await WebAssembly.compile(await readFile(program));
exit(wasi.start(await WebAssembly.instantiate(module, wasi.getImportObject())));
