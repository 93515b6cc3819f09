#!/bin/sh
# usage: BELLSHEET=build/bellsheet AXE=.../axe.min.js tests/clients/axe.sh
#
# The page to log on and the week's page, as axe-core finds them: in headless Chromium at three widths, in light and dark.
# axe cannot be put beside a page that forbids all other scripts, so a copy without that rule is looked at, within a frame
# as wide as the phone. "make clients" runs it.
set -u

. tests/house/ok.sh
case $BELLSHEET in /*) bellsheet=$BELLSHEET ;; *) bellsheet=$(pwd)/$BELLSHEET ;; esac
chromium=$(command -v chromium || command -v chromium-browser) || {
    echo "skipped: no chromium is here for axe-core"
    exit 0
}
clubs=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$AXE" "$folder/axe.js" && cd "$folder" || exit 1

# with_axe PAGE: a copy of PAGE that looks through itself and hands its parent a line for each fault.
with_axe()
{
    sed 's|<meta http-equiv="Content-Security-Policy"[^>]*>||; s|</body>||; s|</html>||' "$1"
    cat <<'END'
<script src="axe.js"></script>
<script>
addEventListener('load', async () => {
    const found = await axe.run(document, { resultTypes: ['violations'] });
    const lines = found.violations.map((v) => v.impact + ' ' + v.id + ' x' + v.nodes.length + ': ' + v.nodes[0].html.slice(0, 120));
    parent.postMessage(['passed ' + found.passes.length, ...lines].join('\n'), '*');
});
</script></body></html>
END
}

# look PAGE WIDTH [OPTION]: sets said to what axe says of PAGE.
look()
{
    with_axe "$1" >page.html
    cat >frame.html <<END
<!DOCTYPE html><meta charset="utf-8"><title>a phone</title><style>:root { color-scheme: light dark }</style>
<pre id="said"></pre><iframe src="page.html" width="$2" height="844"></iframe>
<script>onmessage = (e) => { document.getElementById('said').textContent = e.data + '\nend'; };</script>
END
    shift 2
    said=$(timeout 120 "$chromium" --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --no-first-run \
        --user-data-dir="$folder/profile" --allow-file-access-from-files --window-size=1400,900 --virtual-time-budget=30000 \
        --dump-dom "$@" "file://$folder/frame.html" 2>chromium.log | sed -n '/<pre id="said">/,/^end/p' |
        sed 's/.*<pre id="said">//; /^end/d')
    [ -n "$said" ] || said="serious: Chromium said nothing: $(tail -n 3 chromium.log)"
}

# clean NAME: nothing that is said is serious or critical, and something was looked at.
clean()
{
    is "$1: nothing serious" "" "$(printf '%s\n' "$said" | grep -E '^(serious|critical)')"
    is "$1: axe looked at it" yes "$(printf '%s\n' "$said" | awk '$1 == "passed" && $2 >= 10 { print "yes" }')"
}

"$bellsheet" print "$clubs/examples/slipway" --week 2 --sheet phone,card --index --date 2027-03-08 --out pages >names 2>findings
is "pages are printed" 0 $?
phone=pages/oriel-tamsin-phone.html
for width in 320 390 1280; do
    look "$phone" "$width"
    clean "the page to log on, $width px"
done
look "$phone" 390 --blink-settings=preferredColorScheme=0
clean "the page to log on, in the dark"
look pages/index.html 390
clean "the week's page"

# The same eyes see what is wrong with a page.
sed 's|<button|<button aria-label=""|g; s|lang="en"||; s|</h1>|</h1><p style="color: #999; background: #aaa">faint</p>|' "$phone" >bad.html
look bad.html 390
is "what is wrong is seen" "color-contrast html-has-lang" \
    "$(printf '%s\n' "$said" | grep -oE '^(serious|critical) (color-contrast|html-has-lang)' | cut -d' ' -f2 | sort | tr '\n' ' ' | sed 's/ $//')"

finish
