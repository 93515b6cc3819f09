"""Reads a calendar with icalendar and prints each event in UTC: its start, end, sequence, status and summary."""
import sys
from datetime import date, datetime, timezone

import icalendar


def words(value):
    if isinstance(value, datetime) and value.tzinfo:
        return value.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
    return value.strftime("%Y-%m-%dT%H:%M:%S") if isinstance(value, datetime) else value.isoformat()


with open(sys.argv[1], "rb") as file:
    read = icalendar.Calendar.from_ical(file.read())
zones = {str(zone["TZID"]): zone.to_tz() for zone in read.walk("VTIMEZONE")}


def moment(event, name):
    if name not in event:
        return "-"
    value, zone = event[name].dt, event[name].params.get("TZID")
    if zone:  # by the calendar's own zone, whatever this machine knows of it
        value = zones[zone].localize(value.replace(tzinfo=None))
    return words(value)


for event in read.walk("VEVENT"):
    print(event["UID"], moment(event, "DTSTART"), moment(event, "DTEND"), event["SEQUENCE"], event["STATUS"],
          event["SUMMARY"], "|", event.get("LOCATION", "-"))
