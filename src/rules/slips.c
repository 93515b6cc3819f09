/* What is wrong with single lines and sheets, as pages of `bellsheet explain`. The order is that of the
 * notation: how lines are written, doses, sessions, names, exercises, loads, gyms, camps, limits,
 * files; then sheets. */
#include <string.h>

#include "rules/explain.h"

static const struct slip slips[] = {
    {"syntax", SEVERITY_ERROR, "a line that cannot be read",
     "The words of this line do not fit together. Where the program knows what was meant it says "
     "so; else the table of the notation's line tells its form. The rest of the plan is read all "
     "the same."},
    {"bad-character", SEVERITY_ERROR, "a character that no plan can hold",
     "A control character, a byte that is no UTF-8, or a mark that turns the direction of writing "
     "around: what stands in the file would not be what is seen. Take it out, or save the file as "
     "UTF-8."},
    {"bad-indentation", SEVERITY_ERROR, "a line that lines up with nothing above it",
     "What a line belongs to is told by its indentation. Start it at the column of the lines it "
     "belongs with."},
    {"mixed-indentation", SEVERITY_ERROR, "tabs and spaces mixed",
     "Two lines that look alike may start at different columns. Use spaces, or tabs, and not "
     "both."},
    {"unexpected-indent", SEVERITY_ERROR, "a line indented below one that takes nothing",
     "Nothing can stand below the line above, or it is nested too deeply. Move it to the left."},
    {"too-deep", SEVERITY_ERROR, "nested too deeply to be read",
     "No line of the notation is nested so far. Move it to the left."},
    {"unknown-statement", SEVERITY_ERROR, "a line that starts with no word known there",
     "Each place of a plan has its own lines, listed in the last chapter of the notation. Mostly "
     "it is a slip of spelling, and the nearest word is named."},
    {"line-too-short", SEVERITY_ERROR, "a line with a part missing",
     "The line says who and not what, or what and not how. The message says which part is "
     "missing."},
    {"said-twice", SEVERITY_ERROR, "a thing said twice in one place",
     "Only one of the two could hold, and the program does not choose. Keep one."},
    {"nothing-below", SEVERITY_ERROR, "a heading with nothing below it",
     "The line opens a list, and the list is empty. Fill it, or take the line out."},
    {"missing-colon", SEVERITY_ERROR, "no colon between a name and its dose",
     "A colon parts the name from what is to be done: `chin-up : 5`. A space stands behind it."},
    {"missing-comma", SEVERITY_ERROR, "no comma between names",
     "Names are parted by commas, never by `and`: a name may hold that word."},
    {"loose-sign", SEVERITY_ERROR, "a sign that belongs to nothing",
     "A name cannot end in a sign, nor a text start with one. Take it out."},
    {"name-too-long", SEVERITY_ERROR, "a name longer than can be kept",
     "Shorten it: no sheet has room for it either."},
    {"decimal-comma", SEVERITY_ERROR, "a decimal written with a comma",
     "A comma parts one figure from the next. Decimals take a point: `2.5 kg`."},
    {"too-many-decimals", SEVERITY_ERROR, "more than three decimals",
     "Numbers are kept in whole thousandths. Round it."},
    {"number-too-large", SEVERITY_ERROR, "a number of more than seven digits",
     "Nothing in a gym is counted so far. Mostly a space or a sign is missing."},
    {"range-backward", SEVERITY_ERROR, "a range from the larger to the smaller",
     "A range runs upward: `8-10`. Mostly the two figures are swapped; for week by week use `/`."},
    {"no-unit", SEVERITY_ERROR, "a figure without its unit",
     "Sixty could be kilograms, per cent or seconds. Write the unit behind it."},
    {"wrong-unit", SEVERITY_ERROR, "a unit that does not belong there",
     "Each exercise, limit and line is counted in units of its own. The message names the one "
     "that is meant or the one that does not fit."},
    {"unit-sign", SEVERITY_ERROR, "a unit written as a sign",
     "Quotation marks for seconds and minutes are read in two ways. Write `30 s` or `2 min`."},
    {"slash-for-sides", SEVERITY_ERROR, "a slash where sides are meant",
     "A slash parts weeks. For sides write `6 each side`, or what each stance does."},
    {"slash-and-comma", SEVERITY_ERROR, "a slash and a comma in one series",
     "A slash goes week by week, a comma set by set. Use one of them in a line, and the other in "
     "the block."},
    {"series-too-short", SEVERITY_ERROR, "fewer figures than weeks",
     "A series gives a figure for each week in which the athlete meets the session. Add the "
     "missing ones, or end with `/...` to repeat the last."},
    {"series-too-long", SEVERITY_WARNING, "more figures than weeks",
     "The last of them are never used: the camp has fewer weeks with this session. Take them out, "
     "or place the session more often."},
    {"lists-disagree", SEVERITY_ERROR, "two lists of sets that are not as long",
     "Both lists of a line go set by set. Give them as many figures."},
    {"sets-disagree", SEVERITY_ERROR, "a list that has not as many sets as its block",
     "The block says how many sets there are. Give the list that many figures, or change the "
     "block."},
    {"sets-twice", SEVERITY_WARNING, "sets said by the block and by the line",
     "A line that begins with its own number of sets does them in each set of its block, so that "
     "both multiply. Leave one of them out, unless that is meant."},
    {"two-amounts", SEVERITY_ERROR, "two amounts in one dose",
     "A dose is so many of one thing. Take one out, or join the parts of one set with `+`."},
    {"two-rests", SEVERITY_ERROR, "two rests for the time after one set",
     "The block and the line each give a rest for the same moment. Keep one."},
    {"missing-at", SEVERITY_ERROR, "a load without `@` before it",
     "`@` parts the dose from the load: `5 @ 60 kg`."},
    {"bad-time", SEVERITY_ERROR, "a time that no clock shows",
     "Minutes and seconds go from 0 to 59: write `1:30`, `90 s` or `1 h 10 min`."},
    {"bad-clock", SEVERITY_ERROR, "a clock or an hour that cannot be",
     "An hour of the day is from 00:00 to 23:59. The clock of rounds is written like `5 x 3:00 "
     "rest 1:00`."},
    {"not-one-time", SEVERITY_ERROR, "a range where the clock needs one time",
     "Rounds and intervals run by a clock, which cannot wait between two figures. Give one time."},
    {"bad-date", SEVERITY_ERROR, "a day or month that does not exist",
     "Look at the number of days of the month, and at the order: year-month-day."},
    {"date-order", SEVERITY_ERROR, "a date in another order",
     "Dates are written year-month-day, `2027-03-20`, which is read alike everywhere."},
    {"tempo-form", SEVERITY_ERROR, "a tempo in another form",
     "A tempo has four places parted by hyphens: lowering, bottom pause, lifting, top pause. `X` "
     "is as fast as possible."},
    {"bad-tempo", SEVERITY_ERROR, "a place of a tempo above a minute",
     "A place of a tempo is at most 60 seconds. A longer pause is a hold of its own."},
    {"bad-rpe", SEVERITY_ERROR, "an effort that is none",
     "RPE goes from 1 to 10, as a figure or a range of two."},
    {"bad-percent", SEVERITY_ERROR, "a percentage out of all proportion",
     "A share of a maximum is from 1 % to 150 %, and of what can be lifted at all far less."},
    {"wrong-effort", SEVERITY_ERROR, "an effort that an activity cannot have",
     "An activity's effort is its RPE or its pulse: it has no load and no repetitions in reserve."},
    {"bad-count", SEVERITY_ERROR, "a number of pieces that cannot be",
     "Pieces of kit, sets and weeks are whole numbers from 1 up, within what the message says."},
    {"bad-header", SEVERITY_ERROR, "a block's line with more than sets and rest",
     "Doses stand with the exercises; the block's line gives sets, rest and time for all of them."},
    {"bad-keep", SEVERITY_ERROR, "a rank other than 1, 2 or 3",
     "`keep` says how much a block matters when time runs out: 1 stays, 3 goes first."},
    {"bad-rounds", SEVERITY_ERROR, "rounds without a number or a length",
     "Write how many and how long: `rounds 3 x 2:00 rest 0:30`."},
    {"bad-every", SEVERITY_ERROR, "an interval that does not come out even",
     "Work on the minute needs how often and for how long, and the one must fit into the other."},
    {"intervals-do-not-fit", SEVERITY_ERROR, "intervals that do not fill their round",
     "Work and rest are repeated until the round ends, and the last must end with it. Change one "
     "of the three times."},
    {"filler-without-rounds", SEVERITY_ERROR, "a filler outside of rounds",
     "A filler is done in the rests of rounds, and this block has none. Make it an exercise of "
     "the block."},
    {"round-without-rounds", SEVERITY_ERROR, "a line for a round in a block without rounds",
     "Only a block of rounds has a round 2. Move the line, or change the block."},
    {"no-such-round", SEVERITY_ERROR, "a round beyond the last",
     "The block has fewer rounds than the line names."},
    {"empty-session", SEVERITY_ERROR, "a session without a block",
     "A session with nothing in it cannot be placed. Give it a block, or take it out."},
    {"empty-block", SEVERITY_ERROR, "a block without an exercise",
     "What is a block for with nothing in it? Fill it, or take it out."},
    {"too-many-blocks", SEVERITY_ERROR, "more blocks than a session can hold",
     "Blocks are lettered from A to Z. Make two sessions of it."},
    {"too-many-items", SEVERITY_ERROR, "more lines than a block can hold",
     "No sheet shows so many. Make two blocks of it."},
    {"too-many-parts", SEVERITY_ERROR, "more parts than a set can have",
     "Parts joined by `+` are done in one set. Make lines of their own of them."},
    {"circular-base", SEVERITY_ERROR, "a session based on itself",
     "Of sessions that are based on one another in a ring none says what is done. One of them "
     "must say it all."},
    {"wrong-side", SEVERITY_ERROR, "sides that the exercise does not have",
     "The exercise says how its sides are counted: both at once, each side, each way, or per "
     "stance. The dose must be told the same way."},
    {"wrong-limb", SEVERITY_ERROR, "a limb that does not go with the sides",
     "Lead and rear need a stance; hand, leg and hip go with each side."},
    {"limb-thrice", SEVERITY_ERROR, "a limb named more than twice",
     "A limb that strikes twice in one repetition is named twice. More is an exercise of its own."},
    {"no-stance", SEVERITY_ERROR, "a dose by stance for somebody without one",
     "`own` and `other` are told from the athlete's stance. Give the athlete a line `stance`."},
    {"unused-variant", SEVERITY_WARNING, "a variant that applies to nobody",
     "None of those who meet the session is meant by `for`, or their gym has what `without` is "
     "for. Take it out, or look at the name."},
    {"variants-tie", SEVERITY_ERROR, "two variants that hold for one athlete",
     "The narrower word wins: a name, then an age, then a lifting age. These two are equally "
     "narrow, so that the program would have to choose. Keep one."},
    {"unknown-exercise", SEVERITY_ERROR, "an exercise that nobody declared",
     "Exercises have fixed names, so that the program knows what each loads. `bellsheet find` "
     "looks for it; a line `exercise` declares your own."},
    {"unknown-athlete", SEVERITY_ERROR, "a name that is nobody's",
     "It is no athlete, lifting age or age. Mostly a slip of spelling, or the athletes' file was "
     "not read."},
    {"unknown-gym", SEVERITY_ERROR, "a gym that nobody declared",
     "Mostly a slip of spelling, or the gym's file was not read."},
    {"unknown-limits", SEVERITY_ERROR, "limits that nobody declared",
     "The lists that come with the program are `house defaults`, `novices` and `under 18`; your "
     "own are declared by a line `limits`."},
    {"unknown-session", SEVERITY_ERROR, "a session or activity that nobody declared",
     "Mostly a slip of spelling, or the session's file was not read."},
    {"unknown-item", SEVERITY_ERROR, "a line or block that the session does not have",
     "`A.1` names the first line of block A. Count again, or see `bellsheet show`."},
    {"unknown-phase", SEVERITY_ERROR, "a phase that the camp does not have",
     "A phase is named as below `phases`, and one that lasts `until` another names the one below "
     "it."},
    {"unknown-account", SEVERITY_ERROR, "something that is not counted",
     "The notation's chapter on limits lists all that is counted."},
    {"unknown-avoid", SEVERITY_ERROR, "something that cannot be avoided by name",
     "A restriction names an exercise, a pattern, a body region, a kind, a position, or "
     "`all-out`. A word that is none of them would keep nobody from anything."},
    {"unknown-kit", SEVERITY_WARNING, "kit that the gym lacks, or that nothing needs",
     "In a load it is an error: the gym has no such thing. In the gym's own list it warns: no "
     "exercise of the shelf or of yours asks for it by that name."},
    {"unknown-best", SEVERITY_ERROR, "a percentage with no best to take it from",
     "Give the athlete a best in that lift, or a load in kilograms or by effort. A best from "
     "after that day does not count."},
    {"unknown-word", SEVERITY_ERROR, "a word that is none of the possible ones",
     "The place takes one of a few words, and the message lists them or the nearest."},
    {"declared-twice", SEVERITY_ERROR, "two things of one name",
     "A name is declared once; capitals do not matter. Rename one, or take it out."},
    {"hides-shelf", SEVERITY_ERROR, "a name that the shelf has already",
     "Choose another name, or say `replaces` with the shelf's own name."},
    {"replaces-own", SEVERITY_ERROR, "`replaces` with an entry of your own",
     "Only an entry of the shelf can be replaced. Change your own where it stands."},
    {"no-kind", SEVERITY_ERROR, "an exercise without a kind",
     "The kind decides what is counted and which checks look at it. Write `kind` with one of the "
     "list."},
    {"no-side-rule", SEVERITY_ERROR, "a limb without how sides are counted",
     "First comes how the sides are counted, then the limb: `per stance, rear hand`."},
    {"bad-share", SEVERITY_ERROR, "a share that is none",
     "A region's share of a set is from 0 to 1, and the factor of `percent of` from 0.1 to 3."},
    {"circular-percent", SEVERITY_ERROR, "lifts whose percentages go round in a ring",
     "Each is a share of the next, and none has a best of its own. One of them must."},
    {"chained-percent", SEVERITY_ERROR, "a percentage of a percentage",
     "The lift that a percentage is taken of is itself a share of another. Name that other one."},
    {"bad-best", SEVERITY_ERROR, "a best that says nothing",
     "A best is repetitions, a load and a day: `3 @ 90 kg on 2027-02-20`. From some numbers of "
     "repetitions no maximum can be worked out."},
    {"far-estimate", SEVERITY_WARNING, "a best of too many repetitions",
     "Above ten repetitions the equations for a maximum part widely. Test with a heavier set."},
    {"no-last-load", SEVERITY_WARNING, "`@ last` with nothing logged before",
     "The sheet leaves the load open, to be written by hand. Log a session, or give a load."},
    {"no-load-to-share", SEVERITY_WARNING, "a share of a load that is none",
     "The line above has no load in kilograms to take a share of. Give it one, or this one."},
    {"load-cannot-be-made", SEVERITY_ERROR, "a load that the gym cannot make",
     "Bar, collars and pairs of plates, or the dumbbells and bells at hand, do not come to it. "
     "The nearest that do are named."},
    {"load-gone-with-kit", SEVERITY_WARNING, "a load that goes with the kit",
     "Where the gym lacks the kit another exercise stands in, and it cannot take over the load. "
     "Give it one below the line."},
    {"no-mass", SEVERITY_ERROR, "kit without its mass",
     "Bars, plates and bells are told by what they weigh: `4 x 25 kg`."},
    {"no-name", SEVERITY_ERROR, "kit without its name",
     "Stations and other kit are told by name: `2 x rack`."},
    {"no-step", SEVERITY_ERROR, "a range of kit without its steps",
     "From 4 to 30 kg by how much? `pairs 4-30 kg by 2`."},
    {"kit-count", SEVERITY_ERROR, "kit in no whole pieces",
     "Kit is counted in whole pieces, from 1."},
    {"too-much-kit", SEVERITY_ERROR, "more kit than can be reckoned with",
     "Take the gym's list apart, or leave out what no plan asks for."},
    {"bad-warm-up", SEVERITY_ERROR, "a warm-up that does not rise",
     "It is a few sets with as many repetitions as shares of the load, the shares rising."},
    {"camp-for-nobody", SEVERITY_ERROR, "a camp that is for nobody",
     "Write a line `for` with the athletes' names."},
    {"no-start", SEVERITY_ERROR, "a camp without its first day",
     "Write a line `starts` with a date: weeks are counted from it."},
    {"no-bout", SEVERITY_ERROR, "weeks counted back from no bout",
     "`weeks out` needs a line `bout` in the camp."},
    {"bout-before-start", SEVERITY_ERROR, "a bout before the camp's first day",
     "Look at the two dates. A second bout is a camp of its own."},
    {"camp-too-long", SEVERITY_ERROR, "a camp of more weeks than can be",
     "Mostly the year of the bout or of the start is wrong."},
    {"phases-do-not-fit", SEVERITY_ERROR, "phases longer than the time there is",
     "Start earlier, shorten a phase, or move the bout."},
    {"open-phase", SEVERITY_ERROR, "a phase without a length",
     "Without a bout to count back from, each phase says how long it lasts or until when."},
    {"two-open-phases", SEVERITY_ERROR, "two phases that last until the next",
     "Only one can take up what is left. Give the other a length."},
    {"too-many-phases", SEVERITY_ERROR, "more phases than a camp can hold", "Join some of them into one."},
    {"days-in-no-phase", SEVERITY_WARNING, "days that belong to no phase",
     "Limits and loads of phases do not reach them. Lengthen a phase, or let one last `until` the "
     "next."},
    {"wrong-weeks", SEVERITY_ERROR, "weeks that cannot be counted",
     "Weeks are whole numbers; those of the camp are `weeks 1-4`, those before the bout `weeks "
     "3-1 out`."},
    {"never-comes", SEVERITY_WARNING, "a line that no day of the camp meets",
     "The weekday does not lie in the span, or the span lies outside the camp. Move one of them."},
    {"two-placements", SEVERITY_ERROR, "two lines for one day and hour",
     "Two spans that are equally wide name the same hour. Give each an hour of its own, or narrow "
     "one span."},
    {"too-many-sessions", SEVERITY_ERROR, "more sessions than a plan can hold",
     "Counted for each athlete. Check the camps one by one."},
    {"plan-too-large", SEVERITY_ERROR, "a plan larger than can be worked out",
     "Mostly a series or a span is far too long. Check the camps one by one."},
    {"no-amount", SEVERITY_ERROR, "an activity without its length",
     "How long is it? `pads : 60 min RPE 6`, or rounds as `6 x 2:00`."},
    {"session-with-dose", SEVERITY_ERROR, "a placed session with a dose",
     "A session brings its own doses. `change` below the line alters them there and nowhere else."},
    {"allow-without-end", SEVERITY_ERROR, "an `allow` for ever",
     "What is allowed names its week or its end, so that it does not outlive its reason."},
    {"allow-without-reason", SEVERITY_ERROR, "an `allow` without a reason",
     "Whoever reads the plan later wants to know why. Write `because` below it."},
    {"future-entry", SEVERITY_ERROR, "an entry for a day that is still to come",
     "An entry says what has happened: a date ahead of today ends nothing. Make it on the day."},
    {"no-heading", SEVERITY_ERROR, "a limit without a heading",
     "A limit stands below a heading that says over what and for whom: `every week`."},
    {"use-missing", SEVERITY_ERROR, "a file that cannot be opened",
     "`use` names a file or folder beside the plan's own. Look at its name."},
    {"use-outside", SEVERITY_ERROR, "a file outside the plan's folder",
     "A plan reads nothing outside its own folder. Keep the file there or below it."},
    {"text-cut", SEVERITY_WARNING, "words cut short on a sheet",
     "They did not fit even in the smallest letters. Shorten the name, or take larger paper."},
    {"texts-touch", SEVERITY_WARNING, "words that run into each other on a sheet",
     "Shorten a name, or take larger paper."},
    {"beyond-margin", SEVERITY_WARNING, "words beyond the paper's margin",
     "A printer would lose them. Shorten a name, or take larger paper."},
    {"no-glyph", SEVERITY_WARNING, "letters that no font at hand has",
     "They are printed as boxes. Install a font for that script."},
    {"too-small-to-read", SEVERITY_WARNING, "letters too small for the distance",
     "The message says from how far the sheet can be read, and which paper or number of pages "
     "would mend it."},
    {"too-many-pages", SEVERITY_WARNING, "more pages than the wall takes",
     "Take larger paper, or allow more with `--pages`."},
};

size_t slip_count(void)
{
    return sizeof slips / sizeof slips[0];
}

const struct slip *slip_at(size_t index)
{
    return index < slip_count() ? &slips[index] : NULL;
}

const struct slip *slip_find(const char *name)
{
    for (size_t i = 0; i < slip_count(); i++)
        if (strcmp(slips[i].name, name) == 0)
            return &slips[i];
    return NULL;
}
