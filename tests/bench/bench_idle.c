/* bench_idle.c - the least that a program costs which needs what the program needs: it links GLib and jansson, and ends. */
#include <glib.h>
#include <jansson.h>

int main(void)
{
    json_t *json = json_object();
    json_decref(json);
    g_free(g_strdup(""));
    return 0;
}
