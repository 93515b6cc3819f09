// The grammar for Visual Studio Code over the plans that standard input names: each line is gone through to its end, each
// statement's first word has a class, and each comment is one. Prints what is not so, and how much was looked at.
"use strict";
const fs = require("fs");
const path = require("path");
const textmate = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

const grammarPath = path.join(process.env.EDITORS, "vscode/syntaxes/bell.tmLanguage.json");

async function load() {
    const wasm = fs.readFileSync(path.join(path.dirname(require.resolve("vscode-oniguruma")), "onig.wasm")).buffer;
    await oniguruma.loadWASM(wasm);
    const registry = new textmate.Registry({
        onigLib: Promise.resolve({
            createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
            createOnigString: (text) => new oniguruma.OnigString(text),
        }),
        loadGrammar: async () => textmate.parseRawGrammar(fs.readFileSync(grammarPath, "utf8"), grammarPath),
    });
    return registry.loadGrammar("source.bell");
}

// The innermost scope at a column.
function scopeAt(tokens, column) {
    const token = tokens.find((it) => it.startIndex <= column && column < it.endIndex);
    return token ? token.scopes[token.scopes.length - 1] : "";
}

function wrongWith(line, result) {
    const { tokens, stoppedEarly } = result;
    if (stoppedEarly) return "it takes too long";
    if (line && tokens[tokens.length - 1].endIndex < line.length) return "its end has no token";
    const first = line.search(/\S/);
    const comment = line.search(/(?:^|(?<=\s))#(?=[\s#]|$)/);
    if (comment >= 0 && !scopeAt(tokens, comment).startsWith("comment")) return "its comment is none";
    if (first === comment || first < 0) return "";
    if (first === 0 && /^(session|camp|athlete|gym|exercise|activity|limits|log|use|private) \S/.test(line) &&
        scopeAt(tokens, 0) !== "keyword.declaration.bell") return "its declaration is none";
    if (first > 0 && /^\s+(superset|contrast|purpose|starts|stance|monday) \S/.test(line) && !/:\s/.test(line) &&
        scopeAt(tokens, first) !== "keyword.control.bell") return "its statement is none";
    return "";
}

async function main() {
    const grammar = await load();
    let lines = 0, coloured = 0, wrong = 0;
    const plans = fs.readFileSync(0, "utf8").split("\n").filter(Boolean);
    for (const plan of plans) {
        let state = textmate.INITIAL;
        for (const [index, line] of fs.readFileSync(plan, "utf8").split("\n").entries()) {
            const result = grammar.tokenizeLine(line.replace(/\r$/, ""), state, 5000);
            state = result.ruleStack;
            if (state.depth > 1 && line.search(/\S/) < 0) console.log(`${plan}:${index + 1}: a rule reaches into it`), wrong++;
            const why = wrongWith(line.replace(/\r$/, ""), result);
            if (why) console.log(`${plan}:${index + 1}: ${why}: ${line}`), wrong++;
            lines++;
            coloured += result.tokens.some((it) => it.scopes.length > 1);
        }
    }
    if (!wrongWith("gym Shed # new", grammar.tokenizeLine("", textmate.INITIAL))) console.log("this judge sees nothing"), wrong++;
    console.log(`${plans.length} plans, ${lines} lines, ${coloured} of them coloured, ${wrong} wrong`);
    process.exit(wrong || plans.length < 100 ? 1 : 0);
}

main().catch((error) => {
    console.log(error.message);
    process.exit(1);
});
