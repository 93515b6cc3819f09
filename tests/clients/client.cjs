// The protocol's reference implementation as a client, as tests/clients/run starts it.
"use strict";
const { spawn } = require("child_process");
const fs = require("fs");
const path = require("path");
const { fileURLToPath, pathToFileURL } = require("url");
const lsp = require("vscode-languageserver-protocol/node");

const file = process.argv[2];
const uri = pathToFileURL(file).href;
const root = pathToFileURL(path.dirname(file)).href;
const textDocument = { uri };
let text = fs.readFileSync(file, "utf8");
let version = 1;
let published = () => {};

function say(word, status) {
    console.log(word);
    process.exit(status);
}

function within(what, promise) {
    const late = new Promise((_, no) => setTimeout(() => no(new Error("no " + what)), 10000).unref());
    return Promise.race([promise, late]);
}

// What edits make of a text.
function edited(before, edits) {
    const starts = [0];
    for (let at = before.indexOf("\n"); at >= 0; at = before.indexOf("\n", at + 1)) starts.push(at + 1);
    const offset = (at) => starts[at.line] + at.character;
    return [...edits]
        .sort((a, b) => offset(b.range.start) - offset(a.range.start))
        .reduce((all, it) => all.slice(0, offset(it.range.start)) + it.newText + all.slice(offset(it.range.end)), before);
}

// The edits of a workspace edit, by URI.
function changesOf(edit) {
    const changes = { ...(edit.changes || {}) };
    for (const it of edit.documentChanges || []) changes[it.textDocument.uri] = it.edits;
    return changes;
}

async function main() {
    const server = spawn(process.env.BELLSHEET, ["lsp"], { stdio: ["pipe", "pipe", "inherit"] });
    const wire = lsp.createProtocolConnection(
        new lsp.StreamMessageReader(server.stdout), new lsp.StreamMessageWriter(server.stdin));
    wire.onRequest(lsp.ConfigurationRequest.type, ({ items }) => items.map(() => null));
    wire.onRequest(lsp.RegistrationRequest.type, () => {});
    wire.onNotification(lsp.PublishDiagnosticsNotification.type, (it) => published(it));
    wire.listen();
    const ask = (type, params) => within(type.method, wire.sendRequest(type, params));
    const faults = (wanted) => new Promise((yes) => {
        published = (it) => {
            const errors = it.diagnostics.filter((one) => one.severity === lsp.DiagnosticSeverity.Error);
            if (it.uri === uri && it.version === version && errors.length === wanted) yes(errors);
        };
    });
    const change = (to) => {
        text = to;
        return wire.sendNotification(lsp.DidChangeTextDocumentNotification.type,
            { textDocument: { uri, version: ++version }, contentChanges: [{ text }] });
    };

    await ask(lsp.InitializeRequest.type, {
        processId: process.pid, rootUri: root, workspaceFolders: [{ uri: root, name: "club" }],
        capabilities: {
            textDocument: {
                publishDiagnostics: { versionSupport: true },
                codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } },
            },
        },
    });
    await wire.sendNotification(lsp.InitializedNotification.type, {});
    await wire.sendNotification(lsp.DidOpenTextDocumentNotification.type,
        { textDocument: lsp.TextDocumentItem.create(uri, "bell", version, text) });

    // A half-written name is completed.
    const line = text.split("\n").length - 1;
    const sound = text;
    await change(sound + "        safety b");
    const found = await ask(lsp.CompletionRequest.type, { textDocument, position: { line, character: 16 } });
    const item = (found.items || found).find((it) => it.label === "safety bar squat");
    if (!item) say("the completion lacks it", 1);
    if (edited(text, [item.textEdit]) !== sound + "        safety bar squat") say("completed wrongly", 1);

    // A fault appears behind signs of two UTF-16 units, and its fix makes it go.
    let wait = faults(1);
    await change(sound + "        safty bar squat : 5 @ 60 kg # Änne 🥊\n");
    const [fault] = await within("fault", wait);
    if (!lsp.Diagnostic.is(fault) || fault.range.start.line !== line) say("the fault is " + JSON.stringify(fault), 1);
    const actions = await ask(lsp.CodeActionRequest.type,
        { textDocument, range: fault.range, context: { diagnostics: [fault] } });
    const fix = actions.find((it) => it.kind === lsp.CodeActionKind.QuickFix && it.edit);
    if (!fix) say("no fix among " + JSON.stringify(actions), 1);
    wait = faults(0);
    await change(edited(text, changesOf(fix.edit)[uri]));
    await within("end of the fault", wait);

    // A session is renamed where it is declared and where it is placed.
    const declared = text.split("\n").findIndex((it) => it.startsWith("session Long reach"));
    const renamed = await ask(lsp.RenameRequest.type,
        { textDocument, position: { line: declared, character: 10 }, newName: "Far reach" });
    for (const [other, edits] of Object.entries(changesOf(renamed))) {
        if (other === uri) await change(edited(text, edits));
        else fs.writeFileSync(fileURLToPath(other), edited(fs.readFileSync(fileURLToPath(other), "utf8"), edits));
    }

    // The file gets its layout and is saved.
    const layout = await ask(lsp.DocumentFormattingRequest.type,
        { textDocument, options: lsp.FormattingOptions.create(4, true) });
    await change(edited(text, layout || []));
    fs.writeFileSync(file, text);
    await wire.sendNotification(lsp.DidSaveTextDocumentNotification.type, { textDocument });

    await ask(lsp.ShutdownRequest.type, undefined);
    const end = new Promise((yes) => server.once("exit", yes));
    await wire.sendNotification(lsp.ExitNotification.type);
    const status = await within("end", end);
    say(status === 0 ? "ok" : "the server ended with status " + status, status);
}

main().catch((error) => say(error.message, 1));
