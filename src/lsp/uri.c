#include "lsp/uri.h"

#include <string.h>
#include <strings.h>

#include "base/text.h"

static int hex_value(char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

/* TEXT with %20 and the like replaced by the bytes that they stand for; NULL if one stands for a NUL. */
static const char *decode(struct arena *arena, const char *text)
{
    struct text path = {.arena = arena};
    text_add(&path, "");
    for (; *text && *text != '?' && *text != '#'; text++) {
        int high = *text == '%' ? hex_value(text[1]) : -1, low = high >= 0 ? hex_value(text[2]) : -1;
        if (low < 0) {
            text_add_char(&path, *text);
            continue;
        }
        if (high == 0 && low == 0)
            return NULL;
        text_add_char(&path, (char)(high << 4 | low));
        text += 2;
    }
    while (path.length > 1 && path.data[path.length - 1] == '/')
        path.data[--path.length] = '\0';
    return text_keep(arena, &path);
}

const char *uri_path(struct arena *arena, const char *uri)
{
    static const char local[] = "localhost/";
    if (strncasecmp(uri, "file:", 5) != 0)
        return NULL;
    uri += 5;
    if (strncmp(uri, "//", 2) == 0)
        uri += 2;
    if (strncasecmp(uri, local, sizeof local - 1) == 0)
        uri += sizeof local - 2;
    return *uri == '/' ? decode(arena, uri) : NULL;
}

const char *uri_of_path(struct arena *arena, const char *path)
{
    static const char plain[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
    struct text uri = {.arena = arena};
    text_add(&uri, "file://");
    for (; *path; path++) {
        if (strchr(plain, *path))
            text_add_char(&uri, *path);
        else
            text_addf(&uri, "%%%02X", (unsigned)(unsigned char)*path);
    }
    return text_keep(arena, &uri);
}
