#include "layout/ink.h"

#include <stddef.h>

#include "figures/mass.h"
#include "figures/sight.h"

#define SRGB(r, g, b) {(r) / 255.0, (g) / 255.0, (b) / 255.0}

static const struct colour colours[INK_COUNT] = {
    [INK_NONE] = SRGB(255, 255, 255),
    [INK_PAPER] = SRGB(255, 255, 255),
    [INK_BLACK] = SRGB(20, 20, 20),
    [INK_GREY] = SRGB(84, 84, 84),
    [INK_HAIR] = SRGB(200, 200, 200),
    [INK_SPOT] = SRGB(176, 58, 12),
    [INK_DISC_RED] = SRGB(200, 32, 47),
    [INK_DISC_BLUE] = SRGB(0, 84, 166),
    [INK_DISC_YELLOW] = SRGB(250, 204, 30),
    [INK_DISC_GREEN] = SRGB(0, 122, 61),
    [INK_DISC_WHITE] = SRGB(255, 255, 255),
    [INK_DISC_STEEL] = SRGB(222, 222, 222),
};

const struct colour *ink_colour(enum ink ink)
{
    return &colours[ink];
}

static double luminance(enum ink ink)
{
    return sight_luminance(colours[ink].red, colours[ink].green, colours[ink].blue);
}

double ink_contrast(enum ink one, enum ink other)
{
    return sight_contrast(luminance(one), luminance(other));
}

enum ink ink_on(enum ink ground)
{
    return ink_contrast(INK_PAPER, ground) >= ink_contrast(INK_BLACK, ground) ? INK_PAPER
                                                                              : INK_BLACK;
}

enum ink ink_of_disc(long long mass)
{
    static const struct {
        int tenths;
        enum ink ink;
    } discs[] = {
        {250, INK_DISC_RED}, {200, INK_DISC_BLUE}, {150, INK_DISC_YELLOW}, {100, INK_DISC_GREEN},
        {50, INK_DISC_WHITE}, {25, INK_DISC_RED}, {20, INK_DISC_BLUE}, {15, INK_DISC_YELLOW},
        {10, INK_DISC_GREEN}, {5, INK_DISC_WHITE},
    };
    for (size_t i = 0; i < sizeof discs / sizeof *discs; i++)
        if (discs[i].tenths * (MASS_KG / 10) == mass)
            return discs[i].ink;
    return INK_DISC_STEEL;
}
