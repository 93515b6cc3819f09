#include <cairo-pdf.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "render/cairo_painter.h"
#include "render/pdf_words.h"
#include "render/render.h"

static void set_metadata(cairo_surface_t *surface, const struct scene *scene, int64_t created)
{
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, scene->title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, scene->author);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, scene->subject);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_KEYWORDS, scene->keywords);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "bellsheet");
    /* Without a date cairo takes the clock's, and no two runs would be alike. */
    GDateTime *time = g_date_time_new_from_unix_utc(created);
    char *iso = time ? g_date_time_format(time, "%Y-%m-%dT%H:%M:%SZ") : NULL;
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   iso ? iso : "1970-01-01T00:00:00Z");
    g_free(iso);
    if (time)
        g_date_time_unref(time);
}

/* Entries for SCENE, whose first page is page BEFORE + 1 of the document. */
static void add_outline(cairo_surface_t *surface, const struct scene *scene, int before)
{
    int parent = CAIRO_PDF_OUTLINE_ROOT;
    for (size_t i = 0; i < scene->bookmark_count; i++) {
        const struct bookmark *mark = &scene->bookmarks[i];
        /* cairo reads the number in the C locale's way whatever the locale is. */
        char y[G_ASCII_DTOSTR_BUF_SIZE];
        g_ascii_formatd(y, sizeof y, "%.1f", mark->y);
        char *where = g_strdup_printf("page=%d pos=[0.0 %s]", before + mark->page, y);
        int id = cairo_pdf_surface_add_outline(
            surface, mark->nested ? parent : CAIRO_PDF_OUTLINE_ROOT, mark->title, where,
            mark->nested ? 0 : CAIRO_PDF_OUTLINE_FLAG_OPEN);
        if (!mark->nested)
            parent = id;
        g_free(where);
    }
}

static void paint_scene(struct cairo_painter *painter, const struct scene *scene)
{
    for (size_t page = 0; page < scene->page_count; page++) {
        painter_page(&painter->painter, scene, (int)page + 1);
        cairo_show_page(painter->cairo);
    }
}

const char *render_pdf(const struct scene *const *scenes, size_t count, int64_t created,
                       struct text *out)
{
    if (count == 0)
        return "there is no page to print";
    size_t start = out->length;
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        cairo_painter_write, out, scenes[0]->width, scenes[0]->height);
    set_metadata(surface, scenes[0], created);
    cairo_t *cairo = cairo_create(surface);
    struct cairo_painter painter = cairo_painter_on(cairo);
    painter.tagged = true;
    int before = 0;
    /* One tag around all pages: with one a page, readers warn. */
    cairo_tag_begin(cairo, "Document", NULL);
    for (size_t i = 0; i < count; i++) {
        /* Setting a size throws away what was recorded for the page, including the open tag: so never on the first,
         * which already has its size. */
        if (i > 0)
            cairo_pdf_surface_set_size(surface, scenes[i]->width, scenes[i]->height);
        paint_scene(&painter, scenes[i]);
        add_outline(surface, scenes[i], before);
        before += (int)scenes[i]->page_count;
    }
    cairo_tag_end(cairo, "Document");
    const char *wrong = cairo_painter_end(cairo, surface);
    if (!wrong)
        pdf_add_words(out, start, scenes, count);
    return wrong;
}
