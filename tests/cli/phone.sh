#!/bin/sh
# The week's page as a phone shows it: headless Chromium lays it out in a frame as wide as the phone, and a page around
# the frame, which alone has a script, writes down what it measures. Skipped, with a message, if there is no Chromium.
set -u

. tests/house/ok.sh
case $BELLSHEET in
/*) bellsheet=$BELLSHEET ;;
*) bellsheet=$(pwd)/$BELLSHEET ;;
esac
chromium=$(command -v chromium || command -v chromium-browser) || {
    echo "skipped: no chromium is here, so nobody looked at the page for phones"
    exit 0
}
clubs=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

# frame PAGE WIDTH: a page around PAGE that measures it once its pictures are there.
frame()
{
    cat <<END
<!DOCTYPE html><meta charset="utf-8"><title>a phone</title>
<style>:root { color-scheme: light dark } body { margin: 0 }</style>
<iframe id="phone" src="$1" width="$2" height="844" style="border: 0"></iframe>
<pre id="told"></pre>
<script>
// Parts of a colour, and the contrast of two: Web Content Accessibility Guidelines 2.2.
const parts = (colour) => colour.match(/[\d.]+/g).slice(0, 3).map(Number);
const light = (colour) => {
    const [r, g, b] = parts(colour).map((v) => v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
const told = [];
addEventListener('load', async () => {
    const view = document.getElementById('phone').contentWindow, page = view.document;
    const ground = view.getComputedStyle(page.body).backgroundColor;
    const cards = [...page.images], links = [...page.links];
    for (const card of cards) card.loading = 'eager';
    for (const card of cards) await card.decode().catch(() => 0);
    told.push('width ' + view.innerWidth);
    told.push('scripts ' + page.scripts.length);
    told.push('sideways ' + Math.max(page.documentElement.scrollWidth, page.body.scrollWidth));
    told.push('cards ' + cards.length);
    told.push('broken ' + cards.filter((card) => !card.complete || card.naturalWidth === 0).length);
    const boxes = cards.map((card) => card.getBoundingClientRect());
    told.push('narrowest ' + Math.round(Math.min(...boxes.map((box) => box.width))));
    told.push('beyond ' + boxes.filter((box) => box.left < 0 || box.right > view.innerWidth).length);
    told.push('squeezed ' + boxes.filter((box) => Math.abs(box.height / box.width - 592 / 420) > 0.01).length);
    const worded = [...page.querySelectorAll('h1, h2, h3, a:not(.card)')].filter((e) => e.textContent.trim());
    told.push('smallest ' + Math.min(...worded.map((e) => parseFloat(view.getComputedStyle(e).fontSize))));
    told.push('faintest ' + Math.min(...worded.map((e) => contrast(view.getComputedStyle(e).color, ground))).toFixed(1));
    told.push('papers ' + cards.filter((card) => light(view.getComputedStyle(card).backgroundColor) < 0.99).length);
    told.push('thumbs ' + Math.min(...links.map((link) => Math.floor(link.getBoundingClientRect().height))));
    told.push('nowhere ' + links.filter((link) => link.hash && !page.getElementById(link.hash.slice(1))).length);
    told.push('dark ' + (light(ground) < 0.2));
    document.getElementById('told').textContent = told.join('\n') + '\nend';
});
</script>
END
}

# look PAGE WIDTH [OPTION]: sets told to what Chromium measures.
look()
{
    frame "$1" "$2" >frame.html
    shift 2
    told=$(timeout 120 "$chromium" --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --no-first-run --hide-scrollbars \
        --user-data-dir="$folder/profile" --allow-file-access-from-files --window-size=1000,900 \
        --virtual-time-budget=20000 --dump-dom "$@" "file://$folder/frame.html" 2>chromium.log |
        sed -n '/<pre id="told">/,/^end/p' | sed 's/.*<pre id="told">//; /^end/d')
    [ -n "$told" ] || told="Chromium said nothing: $(tail -n 5 chromium.log)"
}

# measured WHAT
measured()
{
    printf '%s\n' "$told" | sed -n "s/^$1 //p"
}

# least NAME WHAT LIMIT: what was measured is LIMIT or more.
least()
{
    if [ "$(measured "$2" | awk -v limit="$3" '{ print ($1 >= limit) }')" = 1 ]; then
        echo "ok $1"
    else
        refuse "$1" "wanted $3 or more of $2 in:
$told"
    fi
}

# phone WIDTH NAME [OPTION]: the page on a phone, with everything that it must fulfil.
phone()
{
    width=$1 name=$2
    shift 2
    look week/index.html "$width" "$@"
    is "$name: the phone is as wide as meant" "$width" "$(measured width)"
    is "$name: nothing scrolls sideways" "$width" "$(measured sideways)"
    is "$name: no script" 0 "$(measured scripts)"
    is "$name: every card is shown" "$(find week -name '*.svg' | wc -l)" "$(measured cards)"
    is "$name: and is a picture" 0 "$(measured broken)"
    is "$name: inside the screen" 0 "$(measured beyond)"
    is "$name: in its own shape" 0 "$(measured squeezed)"
    is "$name: on white paper" 0 "$(measured papers)"
    least "$name: as wide as the screen, nearly" narrowest $((width * 95 / 100))
    least "$name: words large enough" smallest 16
    least "$name: contrast of words" faintest 4.5
    least "$name: links as high as a thumb" thumbs 40
    is "$name: every link inside leads somewhere" 0 "$(measured nowhere)"
}

"$bellsheet" print "$clubs/examples/slipway" --week 2 --out week --sheet wall,card,week --index --date 2027-02-24 \
    >names 2>findings
is "a week is printed" 0 $?
phone 390 "390 px"
is "390 px: light as it comes" false "$(measured dark)"
phone 320 "320 px"
phone 390 "in the dark" --blink-settings=preferredColorScheme=0
is "in the dark: the page is dark" true "$(measured dark)"

# The same eyes see what is wrong with a page.
sed -e 's|</h1>|</h1><div style="width: 500px">wide</div>|' -e 's|--ink: #141414|--ink: #bbb|' \
    -e 's|a { color|a { font-size: 9px; color|' -e 's|src="[^"]*-card.svg"|src="gone.svg"|' \
    -e 's|href="#day-|href="#no-|' week/index.html >week/bad.html
look week/bad.html 390
is "a page that is too wide is seen" 1 "$(($(measured sideways) > 390))"
is "pictures that are not there are seen" "$(find week -name '*-card.svg' | wc -l)" "$(measured broken)"
is "letters that are too small are seen" 9 "$(measured smallest)"
is "letters that are too faint are seen" 1 "$(measured faintest | awk '{ print ($1 < 4.5) }')"
is "links that lead nowhere are seen" 1 "$(($(measured nowhere) > 0))"

nothing_private=$(grep -i -E 'body mass|born|under 18|injur|concussion|avoid|review' week/index.html)
is "nothing private stands on the page" "" "$nothing_private"
has "a name keeps its marks" 'Đặng Sương Lụa' "$(cat week/index.html)"

finish
