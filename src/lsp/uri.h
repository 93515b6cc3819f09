/* uri.h - between the URIs of the protocol and paths (RFC 3986, RFC 8089). */
#ifndef BELL_LSP_URI_H
#define BELL_LSP_URI_H

#include "base/arena.h"

/* The path that URI names, in ARENA, without a slash at its end; NULL if it is not a file of this machine. */
const char *uri_path(struct arena *arena, const char *uri);

/* The URI of the absolute PATH. */
const char *uri_of_path(struct arena *arena, const char *path);

#endif
