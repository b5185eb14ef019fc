// Runs Python programs in Pyodide, the Python that a browser and Excel's web view run.
//
// Job:    {programs: [{wheel: path, text, given}, ...]}
// Answer: {answers: [text, ...]}
//
// A wheel is unpacked into site-packages before its program runs: no installer, so no network.
// A program is a Python text that finds the text `given` and leaves a text in `answer`; each
// starts with fresh globals, in the same interpreter.

import { readFileSync } from "node:fs";
import { loadPyodide } from "pyodide";

const job = JSON.parse(readFileSync(0, "utf-8"));

// Standard output is the answer's alone.
const toError = (text) => console.error(text);
const python = await loadPyodide({ stdout: toError, stderr: toError });

const site = python.runPython("import sysconfig; sysconfig.get_path('purelib')");

const answers = [];
for (const { wheel, text, given } of job.programs) {
  python.unpackArchive(new Uint8Array(readFileSync(wheel)), "wheel", { extractDir: site });
  const globals = python.toPy({ given });
  python.runPython(text, { globals });
  answers.push(globals.get("answer"));
  globals.destroy();
}

process.stdout.write(JSON.stringify({ answers }));
