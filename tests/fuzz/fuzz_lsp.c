/* Any bytes as what an editor sends: as they are, so that frames and messages are tried; then as the text of a document in
 * the example club, on which every request is made at a place that the bytes choose. */
#include "fuzz/fuzz.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "fuzz/kept_file.h"
#include "lsp/lsp.h"

static void drop_message(void *with, const char *bytes, size_t length)
{
    json_t *json = json_loads(strstr(bytes, "\r\n\r\n"), JSON_DECODE_ANY, NULL);
    (void)with;
    (void)length;
    if (!json)
        abort(); /* what it sends is always JSON */
    json_decref(json);
}

static void lsp_run(struct lsp *lsp)
{
    while (lsp_step(lsp))
        continue;
    lsp_settle(lsp);
}

static void lsp_tell(struct lsp *lsp, json_t *message)
{
    char *body = json_dumps(message, JSON_COMPACT), header[64];
    snprintf(header, sizeof header, "Content-Length: %zu\r\n\r\n", strlen(body));
    lsp_feed(lsp, header, strlen(header));
    lsp_feed(lsp, body, strlen(body));
    json_decref(message);
    free(body);
}

/* The server, opened once; its folder is none that is there, so that it reads no plan. */
static struct lsp *lsp_get(void)
{
    static char share[4096];
    const struct lsp_host host = {.share = share, .today = "2027-03-08", .version = "fuzz", .write = drop_message};
    if (!*share) {
        struct arena *arena = arena_new();
        snprintf(share, sizeof share, "%s", kept_file(arena, "share"));
        arena_free(arena);
    }
    struct lsp *lsp = lsp_open(&host);
    lsp_tell(lsp, json_pack("{s:i,s:s,s:{s:{s:{s:{s:b}}}}}", "id", 1, "method", "initialize", "params", "capabilities",
                            "textDocument", "documentSymbol", "hierarchicalDocumentSymbolSupport", 1));
    return lsp;
}

static void ask_all(struct lsp *lsp, int line, int character)
{
    static const char *const methods[] = {"hover", "completion", "signatureHelp", "definition", "references",
                                          "documentHighlight", "prepareRename", "documentSymbol", "foldingRange",
                                          "semanticTokens/full", "codeLens", "documentLink", "formatting", "inlayHint",
                                          "codeAction", "selectionRange", "rangeFormatting", "diagnostic", "rename"};
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++) {
        char method[64];
        snprintf(method, sizeof method, "textDocument/%s", methods[i]);
        json_t *place = json_pack("{s:i,s:i}", "line", line, "character", character);
        json_t *params = json_pack("{s:{s:s},s:O,s:[O],s:{s:{s:i,s:i},s:O},s:s}", "textDocument", "uri", "untitled:one",
                                   "position", place, "positions", place, "range", "start", "line", 0, "character", 0,
                                   "end", place, "newName", "another name");
        lsp_tell(lsp, json_pack("{s:i,s:s,s:o}", "id", (int)i + 2, "method", method, "params", params));
        json_decref(place);
    }
    lsp_tell(lsp, json_pack("{s:i,s:s,s:{s:s,s:{s:{s:s}}}}", "id", 1000, "method", "codeAction/resolve", "params", "title",
                            "all", "data", "textDocument", "uri", "untitled:one"));
    lsp_run(lsp);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct lsp *lsp = lsp_get();
    const char *what;
    size_t length;
    lsp_feed(lsp, (const char *)data, size);
    lsp_run(lsp);
    lsp_close(lsp);
    if (size < 2 || text_first_fault((const char *)data + 2, size - 2, &what, &length) != size - 2)
        return 0;
    lsp = lsp_get();
    json_t *text = json_stringn((const char *)data + 2, size - 2);
    if (text)
        lsp_tell(lsp, json_pack("{s:s,s:{s:{s:s,s:i,s:o}}}", "method", "textDocument/didOpen", "params", "textDocument",
                                "uri", "untitled:one", "version", 1, "text", text));
    ask_all(lsp, data[0] % 16, data[1] % 64);
    lsp_close(lsp);
    return 0;
}
