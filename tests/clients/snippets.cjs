// Each snippet for Visual Studio Code, as it stands when nothing of it is changed, is a plan in its layout.
"use strict";
const { spawnSync } = require("child_process");
const path = require("path");

const snippets = require(path.join(process.env.EDITORS, "vscode/snippets/bell.json"));
const wrong = [];
for (const [name, { body }] of Object.entries(snippets)) {
    const text = body.join("\n").replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, "$1").replace(/\$\{\d+:([^}]*)\}/g, "$1").replace(/\$0$/, "");
    const plan = text.startsWith(" ") ? "session Any\n" + text : text;
    const made = spawnSync(process.env.BELLSHEET, ["format", "-"], { input: plan, encoding: "utf8" });
    if (made.status !== 0 || made.stdout !== plan) wrong.push(`${name}: ${made.stderr}${made.stdout}`);
}
console.log(wrong.length ? wrong.join("\n") : "ok");
process.exit(wrong.length ? 1 : 0);
