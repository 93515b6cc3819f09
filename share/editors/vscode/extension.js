// Starts `bellsheet lsp` for plans. The program must be installed: nothing is fetched.
"use strict";
const { window, workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

function activate(context) {
    const settings = workspace.getConfiguration("bellsheet");
    const server = { command: settings.get("program") || "bellsheet", args: ["lsp"] };
    client = new LanguageClient("bellsheet", "Bellsheet", server, {
        documentSelector: [
            { scheme: "file", language: "bell" },
            { scheme: "untitled", language: "bell" },
        ],
        initializationOptions: { athlete: settings.get("athlete") || undefined },
        synchronize: { configurationSection: "bellsheet" },
    });
    context.subscriptions.push({ dispose: () => deactivate() });
    return client.start().catch((error) => {
        client = undefined;
        window.showErrorMessage(
            `The language server did not start (${server.command} lsp): ${error.message}. ` +
                "Install bellsheet, or name its program in the setting bellsheet.program."
        );
    });
}

function deactivate() {
    const running = client;
    client = undefined;
    return running && running.stop();
}

module.exports = { activate, deactivate };
