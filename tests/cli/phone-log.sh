#!/bin/sh
# A session tapped through on the page for the phone, in headless Chromium: the log that it gives is one that `import`
# takes and `check` is content with, what was tapped is there after a reload, and the page needs nothing else. Skipped,
# with a message, if there is no Chromium.
# shellcheck disable=SC2016 # the backquotes are words of a script for the browser
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
chromium=$(command -v chromium || command -v chromium-browser) || {
    echo "skipped: no chromium is here, so nobody tapped the page for phones"
    exit 0
}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway "$folder/club"
cd "$folder" || exit 2
sed -i '/^log /,$d' club/logs.bell
"$program" print club --on 2027-03-08 --athlete 'Oriel Tamsin' --sheet phone --date 2027-03-08 --out out >names 2>said
is "a page is printed" "0 out/oriel-tamsin-phone.html" "$? $(cat names)"
page=out/oriel-tamsin-phone.html

# drive WIDTH SCRIPT [OPTION]: what SCRIPT, run around the page in a frame of that width, puts into `told`.
drive()
{
    cat >frame.html <<END
<!DOCTYPE html><meta charset="utf-8"><style>:root { color-scheme: light dark } body { margin: 0 }</style>
<iframe id="phone" src="$page" width="$1" height="844" style="border: 0"></iframe><pre id="told"></pre>
<script>
const told = [];
addEventListener('load', () => {
    const view = document.getElementById('phone').contentWindow, page = view.document;
    const all = (what) => [...page.querySelectorAll(what)];
    const press = (words, within = page) => [...within.querySelectorAll('button')].find((one) => one.textContent === words).click();
    $2
    document.getElementById('told').textContent = told.join('\n') + '\nend';
});
</script>
END
    shift 2
    timeout 120 "$chromium" --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --no-first-run --hide-scrollbars \
        --user-data-dir="$folder/profile" --allow-file-access-from-files --window-size=1400,900 \
        --virtual-time-budget=10000 --dump-dom "$@" "file://$folder/frame.html" 2>chromium.log |
        sed -n '/<pre id="told">/,/^end/p' | sed 's/.*<pre id="told">//; /^end/d; s/&gt;/>/g; s/&lt;/</g; s/&amp;/\&/g'
}

# --- the page ---

measure='told.push(`sideways ${page.documentElement.scrollWidth}`);
    told.push(`smallest ${Math.floor(Math.min(...all("button, input").filter((e) => e.offsetParent).map((e) => Math.min(e.getBoundingClientRect().height, e.getBoundingClientRect().width))))}`);
    told.push(`unnamed ${all("button").filter((e) => !(e.getAttribute("aria-label") || e.textContent)).length}`);
    told.push(`letters ${Math.min(...all("h1, h2, h3, h4, p, button").map((e) => parseFloat(view.getComputedStyle(e).fontSize)))}`);'
for width in 320 390 1280; do
    got=$(drive "$width" "$measure")
    is "$width px: nothing scrolls sideways" "$width" "$(printf '%s\n' "$got" | sed -n 's/^sideways //p')"
    is "$width px: what is tapped is 44 px at least" 1 "$(printf '%s\n' "$got" | awk '/^smallest/ { print ($2 >= 44) }')"
    is "$width px: every button has a name" "unnamed 0" "$(printf '%s\n' "$got" | grep unnamed)"
    is "$width px: letters of 16 px at least" 1 "$(printf '%s\n' "$got" | awk '/^letters/ { print ($2 >= 16) }')"
done
has "it forbids all loading from elsewhere" "default-src 'none'" "$(cat "$page" | sed "s/&apos;/'/g; s/&#39;/'/g")"
is "and names no other place" "" "$(grep -oE '(src|href)=|https?://|url\(' "$page")"
is "without a script it is a card all the same" "found" "$(sed '/<script>/,/<\/script>/d' "$page" | grep -q 'Stop if: ' && echo found)"
is "nothing private stands on it" "" "$(grep -iE 'body mass|born|injur|concussion|restrict' "$page")"

# --- as planned ---

tap_all='all(".set").forEach((one) => one.click());'
copy='press("Copy the log"); told.push(page.querySelector("textarea").value);'
got=$(drive 390 "view.localStorage.clear(); view.location.reload();") # a store of its own
got=$(drive 390 "$tap_all $copy")
is "all as planned" "log 2027-03-08 17:30 Oriel Tamsin, Hips before hands
    as planned" "$(printf '%s\n' "$got" | sed '/^$/d')"
got=$(drive 390 "told.push(all('.set').filter((one) => one.getAttribute('aria-pressed') === 'true').length === all('.set').length);")
is "after a reload nothing is lost" true "$got"

# --- with two lines changed ---

got=$(drive 390 "const lifts = all('[data-ref]'), squat = lifts.find((one) => one.dataset.name.includes('squat'));
    squat.querySelector('[aria-label^=heavier]').click();
    squat.querySelectorAll('[aria-label^=less]')[1].click();
    lifts.at(-1).querySelectorAll('.set').forEach((one) => one.click());
    const section = page.querySelector('[data-log]');
    section.querySelector('[aria-label=\"more: Minutes\"]').click();
    section.querySelector('[aria-label=\"less: How hard it was, RPE\"]').click();
    $copy")
printf '%s\n' "$got" >pasted.txt
has "a heavier set is in the log" "5 @ 77.5 kg" "$got"
has "and one repetition less" "4 @ 75 kg" "$got"
has "what was not done is said" "skipped" "$got"
has "and how long and hard it was" "    took      54 min RPE 6.5" "$got"
cat club/logs.bell >before
"$program" import pasted.txt club --append club/logs.bell --date 2027-03-08 >said 2>&1
is "import takes it" 0 $?
[ -s said ] && is "and has taken a log" "found" "$(grep -q 'Hips before hands' club/logs.bell && echo found)"
is "check is content with it" "" "$("$program" check club --date 2027-03-09 2>&1 | grep -E 'error:|\[(bad-log|log-|unknown-)')"
"$program" import pasted.txt club --append club/logs.bell --date 2027-03-08 >said 2>&1
is "a second time adds nothing" 1 "$(grep -c 'Hips before hands' club/logs.bell)"

# --- in the dark ---

got=$(drive 390 'const parts = (colour) => colour.match(/[\d.]+/g).slice(0, 3).map(Number);
    const light = (colour) => { const [r, g, b] = parts(colour).map((v) => v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
    const contrast = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
    const style = (e) => view.getComputedStyle(e);
    told.push(`dark ${light(style(page.body).backgroundColor) < 0.2}`);
    told.push(`faintest ${Math.min(...all("h1, h2, h3, h4, p").map((e) => contrast(style(e).color, style(page.body).backgroundColor)), ...all("button").map((e) => contrast(style(e).color, style(e).backgroundColor))).toFixed(1)}`);' \
    --blink-settings=preferredColorScheme=0)
has "in the dark the page is dark" "dark true" "$got"
is "and all of it can be read" 1 "$(printf '%s\n' "$got" | awk '/^faintest/ { print ($2 >= 4.5) }')"

# --- in the athlete's language ---

sed -i '/^athlete Oriel Tamsin/a\    print in Spanish' club/athletes.bell
"$program" print club --on 2027-03-08 --athlete 'Oriel Tamsin' --sheet phone --date 2027-03-08 --out spanish >names 2>said
is "a page in Spanish is printed" "0 spanish/oriel-tamsin-phone.html" "$? $(cat names)"
page=spanish/oriel-tamsin-phone.html
got=$(drive 390 "view.localStorage.clear(); view.location.reload();")
got=$(drive 320 "$tap_all"' press("Copiar el registro"); told.push(page.querySelector("textarea").value);
    told.push(`language ${page.documentElement.lang}`, `sideways ${page.documentElement.scrollWidth}`, page.querySelector("h2").textContent);
    told.push(`english ${all("button, label, .row span").filter((e) => /\b(less|more|Minutes|Why|Note|How|Not done|lighter)\b/.test(e.textContent + e.getAttribute("aria-label"))).length}`);')
is "it is in Spanish, and its log is in the notation" "log 2027-03-08 17:30 Oriel Tamsin, Hips before hands
    as planned
language es
sideways 320
lunes, 8 de marzo de 2027
english 0" "$(printf '%s\n' "$got" | sed '/^$/d')"
has "what guards somebody is there in English too" "Para si / Stop if: " "$(cat "$page")"
finish
