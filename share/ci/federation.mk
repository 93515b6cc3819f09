# Checks the plans of many clubs, each in a folder of its own, as many at once as make is given jobs (make -j4). Put it
# beside the clubs' folders and run
#     make -j -f federation.mk check-clubs
#
# Each club is checked by a process of its own, so one club's faults, or a plan that cannot be read, stop nobody else's.
# Needs jq. A folder's name must be one word. What is written to REPORTS tells no health fact:
#   clubs.md          a table of all the clubs, those with errors first
#   clubs.sarif       what was found in all of them, in one log for code scanning
#   NAME.json, .sarif, .status, .said   one club's findings, exit status and complaints
#
# Where a service spreads the work over several machines, each takes its share: PART=2 PARTS=5 is the second of five. It
# makes its reports by the target report-clubs, which does not fail. A last machine, with all of them in REPORTS, gathers
# them by sum-clubs, and fails by verdict-of-clubs.
BELLSHEET ?= bellsheet
CLUBS     ?= $(sort $(patsubst %/,%,$(dir $(wildcard */*.bell))))
REPORTS   ?= reports
PART      ?= 1
PARTS     ?= 1

self := $(lastword $(MAKEFILE_LIST))

# The clubs of this part: every PARTS-th, beginning with the PART-th.
mine := $(shell printf '%s\n' $(CLUBS) | awk 'NF && (NR - $(PART)) % $(PARTS) == 0')

.PHONY: check-clubs report-clubs sum-clubs verdict-of-clubs list-clubs $(mine:%=check-club-%)

check-clubs: report-clubs
	@$(MAKE) --no-print-directory -f '$(self)' sum-clubs
	@$(MAKE) --no-print-directory -f '$(self)' verdict-of-clubs

report-clubs: $(mine:%=check-club-%)

# Exit status 1 means that the plan has errors; the report is whole all the same. Any other leaves no report.
$(mine:%=check-club-%): check-club-%:
	@mkdir -p '$(REPORTS)'
	@cd '$(REPORTS)' && rm -f '$*.json' '$*.sarif'
	@said() { \
	    $(BELLSHEET) check --format "$$1" '$*' >'$(REPORTS)/$*.new' 2>'$(REPORTS)/$*.said' || status=$$?; \
	    [ $$status -le 1 ] && mv '$(REPORTS)/$*.new' '$(REPORTS)/$*'."$$1"; \
	}; \
	status=0; said json && said sarif; \
	rm -f '$(REPORTS)/$*.new'; echo $$status >'$(REPORTS)/$*.status'

# The first column is to sort by: what could not be checked comes first, then the most errors.
ROW := "\(.counts.errors)\t\(.counts.warnings)\t| \($$club) | \(.counts.errors) | \(.counts.warnings) |"
# The runs of several plans need categories of their own (SARIF 2.1.0, 3.17.3), or one would take another's place.
MERGED := {version: "2.1.0", runs: [inputs | (input_filename | rtrimstr(".sarif")) as $$club | \
    .runs[] | .automationDetails = {id: "bellsheet/\($$club)/"}]}

sum-clubs:
	@set -e; cd '$(REPORTS)'; rm -f clubs.sarif; \
	for club in $(CLUBS); do \
	    if [ -e "$$club.json" ]; then jq -r --arg club "$$club" '$(ROW)' "$$club.json"; \
	    elif [ -e "$$club.status" ]; then printf '9999998\t0\t| %s | could not be checked | |\n' "$$club"; \
	    else printf '9999999\t0\t| %s | was not checked | |\n' "$$club"; fi; \
	done >clubs.rows; \
	{ printf '| Club | Errors | Warnings |\n|---|---:|---:|\n'; \
	    sort -t '	' -k1,1nr -k2,2nr -k3 clubs.rows | cut -f 3; } >clubs.md; \
	rm clubs.rows; \
	for club in $(CLUBS); do [ ! -e "$$club.sarif" ] || echo "$$club.sarif"; done | \
	    xargs -r jq -n '$(MERGED)' >clubs.new; \
	mv clubs.new clubs.sarif; cat clubs.md

verdict-of-clubs:
	@cd '$(REPORTS)' && for club in $(CLUBS); do [ "$$(cat "$$club.status")" = 0 ] || exit 1; done

list-clubs:
	@printf '%s\n' $(mine)
