// Times the worker of the plate as a page would: every usual case of a top of 67 by 20 in with two sinks.
//
// How to run, from the root of the repository, after `make dist`, with Node 18 or newer:
//
//     cargo run --quiet --locked --release --example plate_jobs question > target/question.json
//     node tests/bench/time_worker.mjs target/question.json [folder]
//
// `folder` holds plate-worker.js and plate-worker_bg.wasm: that of the page in dist, where none is named. The time told
// is that of the processor, which other work on the machine disturbs less than that of the clock; in the first answers it counts the
// engine's compiler as well.

import { readFileSync, readdirSync } from "node:fs";
import vm from "node:vm";
import { gzipSync } from "node:zlib";

const built = () => `dist/${readdirSync("dist").find((name) => name.startsWith("plate-"))}`;
const [question, folder = built()] = process.argv.slice(2);
const asked = JSON.parse(readFileSync(question, "utf8"));
const program = readFileSync(`${folder}/plate-worker_bg.wasm`);
console.log(`${program.length} bytes, ${gzipSync(program, { level: 9 }).length} compressed`);

const milliseconds = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

// What the worker finds around it: a scope that says every object is its own, and hears what it posts.
let posted = [];
globalThis.self = globalThis;
globalThis.DedicatedWorkerGlobalScope = class {
  static [Symbol.hasInstance]() {
    return true;
  }
};
globalThis.postMessage = (message) => posted.push([milliseconds(), message]);
vm.runInThisContext(`${readFileSync(`${folder}/plate-worker.js`, "utf8")}; globalThis.start = wasm_bindgen;`);
await globalThis.start({ module_or_path: program });

const runs = [];
for (let turn = 0; turn < 30; turn++) {
  posted = [];
  const begun = milliseconds();
  globalThis.onmessage({ data: { turn, question: asked, effort: "Cases" } });
  runs.push({ first: posted[0][0] - begun, all: milliseconds() - begun });
}
const { net, cases } = posted.at(-1)[1].Answer.answer.Cases;
const median = (numbers) => [...numbers].sort((one, other) => one - other)[numbers.length >> 1].toFixed(1);
const warm = runs.slice(10);
console.log(`${net.nodes.length} nodes, ${cases.length} cases; milliseconds:`);
console.log(`the very first answer: first case ${runs[0].first.toFixed(0)}, all ${runs[0].all.toFixed(0)}`);
console.log(`later, median of ${warm.length}: first case ${median(warm.map((run) => run.first))}, all ${median(warm.map((run) => run.all))}`);
