# Checks a plan with make. Put it beside the plan's own makefile and add the line
#     include check.mk
#
#   make check-plan      say what is wrong; fails when the plan has errors. For the coach's own screen: it tells all
#   make report-plan     write the reports below, also when it has; they tell no health fact
BELLSHEET ?= bellsheet
PLAN      ?= .
REPORTS   ?= reports

.PHONY: check-plan report-plan

check-plan:
	$(BELLSHEET) check '$(PLAN)'

# Exit status 1 means that the plan has errors; the report is whole all the same.
report-plan:
	@mkdir -p '$(REPORTS)'
	$(BELLSHEET) check --format json '$(PLAN)' >'$(REPORTS)/findings.json' || [ $$? -eq 1 ]
	$(BELLSHEET) check --format sarif '$(PLAN)' >'$(REPORTS)/findings.sarif' || [ $$? -eq 1 ]
