/* Prints a dictionary for the fuzzers: every phrase of the language, from the tables that the program itself uses. */
#include <stdio.h>
#include <string.h>

static const char *const lists[] = {
#define STATEMENT(id, phrases, places, form, opens) phrases,
#include "syntax/kinds.def"
#define WORD(token, code, phrases, where) phrases,
#include "syntax/words.def"
};

/* What no table holds: signs, and values that have broken a program before. */
static const char *const others[] = {
    ":", " : ", "@", "+", "/", ",", ";", "-", "#", "%", "...", "\\x0a", "\\x0a    ", "\\x0a        ",
    "\\x0a            ", "\\x09", "\\x0d\\x0a", "\\x00", "\\xe2\\x80\\x8b", "\\xe2\\x80\\xae", "\\xef\\xbb\\xbf", "\\xcc\\x81",
    "0", "1", "9223372036854775807", "9999999999999999999999", "0.001", "2147483648", "2027-03-01",
    "0000-00-00", "9999-12-31", "2027-02-30", "17:30", "99:99", "3-1-X-0", "A.1", "Z.99", "1/2/3/4", "8-10",
    "every week", "every session", "taper", "novice", "under 18", "house defaults", "back squat", "Oriel Tamsin"};

static void print_phrase(const char *phrase, size_t length)
{
    putchar('"');
    for (size_t i = 0; i < length; i++)
        printf((unsigned char)phrase[i] < 0x80 ? "%c" : "\\x%02x", (unsigned char)phrase[i]);
    puts("\"");
}

int main(void)
{
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        for (const char *at = lists[i]; *at;) {
            size_t length = strcspn(at, "|");
            print_phrase(at, length);
            at += length + (at[length] == '|');
        }
    }
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        printf("\"%s\"\n", others[i]);
    return 0;
}
