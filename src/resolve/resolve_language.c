/* resolve_language.c - the language that sheets are printed in. */
#include "language/language.h"

#include "resolve/resolver.h"
#include "syntax/tree.h"

const struct language *resolver_language(struct resolver *r, const struct node *owner)
{
    const struct node *line = resolver_single(r, owner, STATEMENT_PRINT_IN);
    const struct language *language = line ? language_find(resolver_fold(r, line->first)) : NULL;
    if (!line || language)
        return language;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, line->first->span,
                                         "no sheet can be printed in `%s`", line->first->text);
    struct text known = {.arena = r->arena};
    for (size_t i = 0; i < language_count; i++)
        text_addf(&known, "%s%s", i == 0 ? "one of: " : ", ", languages[i]->name);
    diag_help(r->diag, finding, "%s", text_keep(r->arena, &known));
    return NULL;
}
