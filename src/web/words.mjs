// Days, chances and lists in plain words.

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const weekdays = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];

// "2026-10-03" or "2026-10-03T07:00" -> whole days since 1970.
export function dayNumber(iso) {
  return Date.UTC(+iso.slice(0, 4), +iso.slice(5, 7) - 1, +iso.slice(8, 10)) / 86400000;
}

export function isoOf(day) {
  return new Date(day * 86400000).toISOString().slice(0, 10);
}

export function monthName(day) {
  return months[new Date(day * 86400000).getUTCMonth()];
}

export function dateWords(iso, withYear = false) {
  const words = `${+iso.slice(8, 10)} ${months[+iso.slice(5, 7) - 1]}`;
  return withYear ? `${words} ${iso.slice(0, 4)}` : words;
}

// A day that is known to the week: "week of 12 Oct", by its Monday.
export function weekWords(iso) {
  const day = dayNumber(iso);
  const monday = new Date((day - ((new Date(day * 86400000).getUTCDay() + 6) % 7)) * 86400000);
  return `week of ${monday.getUTCDate()} ${months[monday.getUTCMonth()]}`;
}

export function weekdayWords(iso) {
  return weekdays[new Date(dayNumber(iso) * 86400000).getUTCDay()];
}

export function rangeWords(from, to) {
  if (from.slice(0, 10) === to.slice(0, 10)) return dateWords(from);
  const sameMonth = from.slice(0, 7) === to.slice(0, 7);
  return sameMonth ? `${+from.slice(8, 10)}–${dateWords(to)}` : `${dateWords(from)} – ${dateWords(to)}`;
}

// A ready day: a date, "not by DATE", or null where nothing is due.
export function readyWords(text) {
  if (text === null) return "nothing due";
  return text.startsWith("not by ") ? `not by ${dateWords(text.slice(7))}` : dateWords(text);
}

export function isDay(text) {
  return text !== null && !text.startsWith("not by ");
}

// Rounded down, so that nothing looks surer than it is; 1e-9 takes up what is lost in writing the number.
export function wholeTenths(chance) {
  return Math.floor(chance * 10 + 1e-9);
}

export function chanceWords(chance) {
  const tenths = wholeTenths(chance);
  if (chance >= 1) return "every year";
  if (chance <= 0) return "no year";
  if (tenths === 0) return "under 1 year in 10";
  return tenths === 1 ? "1 year in 10" : `${tenths} years in 10`;
}

export function count(n, one, many) {
  return `${n} ${n === 1 ? one : many}`;
}

export function listWords(items) {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}

// "field" before one number, "fields" before several.
export function fieldWord(ids) {
  return ids.length === 1 ? "field" : "fields";
}

export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function fieldLabel(field) {
  return field.name && field.name !== field.id ? `${field.id} · ${field.name}` : field.id;
}

export function perHundred(chance) {
  return Math.round(1000 * chance) / 10;
}

// A chance that somebody asked for is not rounded: "8 years in 10", "85 years in 100".
export function askedChanceWords(chance) {
  return Number.isInteger(perHundred(chance) / 10) ? chanceWords(chance) : `${perHundred(chance)} years in 100`;
}
