// Holds custom-functions metadata to what Microsoft publishes, with Microsoft's own packages:
//
// - the JSON schema of the app manifest (package @microsoft/app-manifest), whose definition
//   `extensionCustomFunctions` is that of custom functions, by the validator that package uses;
// - the generator of such metadata (package custom-functions-metadata), fed with a TypeScript
//   source that declares the same functions: its complaints, and what it would have generated.
//
// Job:    {version: "v1.30", cases: [{manifest: {...}, source: "TypeScript" or null}, ...]}
// Answer: [{schema: [{path, message}, ...], generator: [message, ...], generated: {...}}, ...]

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const job = JSON.parse(readFileSync(0, "utf-8"));

function schemaCheck() {
  const Ajv = require("ajv-draft-04");
  const where = `@microsoft/app-manifest/build/json-schemas/teams/${job.version}`;
  const { definitions } = require(`${where}/MicrosoftTeams.schema.json`);
  for (const name of Object.keys(definitions)) {
    // The schema leaves objects open. A property that it does not know is a mistake here.
    if (/^extension(CustomFunctions|Function|Result)/.test(name)) {
      definitions[name].additionalProperties = false;
    }
  }
  const validator = new Ajv({ strict: false, allErrors: true, logger: false });
  require("ajv-formats")(validator);
  return validator.compile({ definitions, $ref: "#/definitions/extensionCustomFunctions" });
}

function againstSchema(check, manifest) {
  check(manifest);
  return (check.errors ?? []).map(({ instancePath, message, params }) => ({
    path: instancePath,
    message: `${message} ${JSON.stringify(params)}`,
  }));
}

function againstGenerator(source) {
  // Its inner module: the outer one loads telemetry, which nothing here needs.
  const { parseTree } = require("custom-functions-metadata/lib/parseTree");
  const { functions, enums, extras } = parseTree(source, "functions.ts");
  return { generated: { functions, enums }, generator: extras.flatMap((one) => one.errors) };
}

const check = schemaCheck();
process.stdout.write(
  JSON.stringify(
    job.cases.map(({ manifest, source }) => ({
      schema: againstSchema(check, manifest),
      ...(source === null ? {} : againstGenerator(source)),
    })),
  ),
);
