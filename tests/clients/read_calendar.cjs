// Reads a calendar with ical.js and prints each event in UTC: its start, end, sequence, status and summary.
const fs = require("fs");
const ICAL = require("ical.js").default || require("ical.js");

const calendar = new ICAL.Component(ICAL.parse(fs.readFileSync(process.argv[2], "utf8")));
const zones = {};
for (const block of calendar.getAllSubcomponents("vtimezone")) {
    const zone = new ICAL.Timezone(block);
    zones[zone.tzid] = zone;
}

function moment(event, name) {
    const property = event.getFirstProperty(name);
    if (!property) return "-";
    const time = property.getFirstValue(), zone = property.getParameter("tzid");
    if (zone) {
        if (!zones[zone]) throw new Error(`the calendar does not bring ${zone}`);
        time.zone = zones[zone]; // by the calendar's own zone, whatever this machine knows of it
        return time.convertToZone(ICAL.Timezone.utcTimezone).toString();
    }
    return time.toString();
}

for (const event of calendar.getAllSubcomponents("vevent")) {
    const value = (name) => event.getFirstPropertyValue(name);
    console.log([value("uid"), moment(event, "dtstart"), moment(event, "dtend"), value("sequence"), value("status"),
        value("summary"), "|", value("location") || "-"].join(" "));
}
