// The extension for Visual Studio Code, with a client in place of the editor's: it starts the program that the settings
// name with `lsp`, tells it of plans alone, and ends it.
"use strict";
const Module = require("module");
const path = require("path");

const done = [];
const stands = {
    vscode: {
        workspace: { getConfiguration: () => ({ get: (name) => ({ program: "/opt/bells/bin/bellsheet", athlete: "" })[name] }) },
        window: { showErrorMessage: (text) => done.push("error " + text) },
    },
    "vscode-languageclient/node": {
        LanguageClient: class {
            constructor(id, name, server, client) {
                done.push(`${id} ${server.command} ${server.args} ${client.documentSelector.map((it) => it.language)}`);
                done.push(JSON.stringify(client.initializationOptions));
            }
            async start() { done.push("start"); }
            async stop() { done.push("stop"); }
        },
    },
};
const load = Module._load;
Module._load = (name, ...rest) => stands[name] || load(name, ...rest);

async function main() {
    const extension = require(path.join(process.env.EDITORS, "vscode/extension.js"));
    await extension.activate({ subscriptions: [] });
    await extension.deactivate();
    const wanted = ["bellsheet /opt/bells/bin/bellsheet lsp bell,bell", "{}", "start", "stop"];
    const same = JSON.stringify(done) === JSON.stringify(wanted);
    console.log(same ? "ok" : JSON.stringify(done));
    process.exit(same ? 0 : 1);
}

main();
