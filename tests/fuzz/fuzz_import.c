/* Bytes as the rows of a table of lifts for a club: the first two choose the club, each four that follow make a row that names an
 * occasion of it and an exercise, with figures that may be none. Each row is refused in words or stands in one log, and the
 * logs that are made read as lines of the language. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "fuzz/edited_club.c"
#include "logs/import.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/programme.h"

enum { MOST_ROWS = 40 };

static const char rules_text[] = "Day : day\nHour : hour\nWho : athlete\nWhat : session\nLine : line\nSets : sets\nReps : reps\n"
                                 "Kg : load in kg\nFelt : RPE\nMinutes : took in min\nWhole : session RPE\nRemark : note\n";
static const char head[] = "Day,Hour,Who,What,Line,Sets,Reps,Kg,Felt,Minutes,Whole,Remark\n";

static const char *const figures[] = {"", "0", "1", "5", "8.5", "60", "60.125", "-1", "1e3", "999999999999",
                                      "5-6", "nil", " 7 ", "102.5 lb"};
static const char *const lines[] = {"A.1", "A.2", "B.1", "", "a1", "Z.9"};
static const char *const remarks[] = {"", "good", "\"a, \"\"b\"\"\"", "# none", "\"two\nlines\"",
                                      "x : 5 @ 60 kg", "\xc3\xa9t\xc3\xa9"};

#define PICK(list, number) (list)[(size_t)(number) % (sizeof(list) / sizeof *(list))]

static void add_row(const struct programme *programme, const uint8_t *data, struct text *table)
{
    const struct occasion *occasion = &programme->occasions[data[0] % programme->occasion_count];
    char day[DATE_TEXT_SIZE];
    unsigned mix = (unsigned)data[1] * 31 + (unsigned)data[2] * 7 + data[3];
    date_format(data[1] % 16 == 15 ? occasion->date + data[2] : occasion->date, day);
    const char *what = occasion->session && data[1] % 8 ? occasion->session->name.shown : "";
    text_addf(table, "%s,%s,%s,%s,%s,", day, data[2] % 8 == 7 ? "25:61" : "", occasion->athlete->name.shown, what,
              PICK(lines, data[3]));
    text_addf(table, "%s,%s,%s,%s,%s,%s,%s\n", data[1] % 4 ? "" : PICK(figures, mix), PICK(figures, data[2]),
              PICK(figures, data[2] / 16), data[3] % 4 ? "" : PICK(figures, data[3] / 4), data[3] % 3 ? "" : PICK(figures, mix / 3),
              data[3] % 3 ? "" : PICK(figures, mix / 5), PICK(remarks, data[1] / 16));
}

/* Every row that is taken stands in a log that is made, and in no other. */
static void must_hold(const struct imported *imported)
{
    size_t taken = 0, standing = 0;
    for (size_t i = 0; i < imported->row_count; i++)
        taken += !imported->rows[i].refused;
    for (size_t i = 0; i < imported->log_count; i++) {
        const struct imported_log *log = imported->logs[i];
        if (*log->text) {
            const struct text text = {.data = (char *)log->text, .length = strlen(log->text)};
            standing += log->row_count;
            club_must_read(&text);
        }
    }
    if (standing != taken)
        abort();
}

static void import(struct club_read *club, const uint8_t *data, size_t size)
{
    struct text table = {.arena = club->arena};
    int file = source_add(&club->sources, "rules", rules_text, strlen(rules_text));
    struct table_rules rules = table_rules_read(club->arena, &club->sources.items[file]);
    text_add(&table, head);
    for (size_t i = 0; i + 3 < size && i < 4 * MOST_ROWS; i += 4)
        add_row(club->programme, data + i, &table);
    const struct csv csv = csv_read(club->arena, text_get(&table), table.length, rules.separator);
    table_rules_find(club->arena, &rules, &csv);
    if (rules.fault_count)
        abort();
    const struct imported imported = import_table(club->arena, club->programme, &rules, &csv, 0);
    must_hold(&imported);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text plan = {0};
    struct club_read club;
    if (size < 2)
        return 0;
    club_make(&(struct club_seed){.shape = (uint64_t)data[0] << 8 | data[1]}, &plan);
    club_read(&club, &plan);
    if (club.programme->occasion_count)
        import(&club, data + 2, size - 2);
    arena_free(club.arena);
    text_free(&plan);
    return 0;
}
