// Numbers in the units that the farm reads. Inside the plan all is metric.

const acre = 0.40468564224;
const systems = {
  si: { area: "ha", mass: "kg/ha", fuel: "L", water: "m³", length: "cm",
        perHa: 1, perMass: 1, perL: 1, perM3: 1, perCm: 1 },
  us: { area: "ac", mass: "lb/ac", fuel: "gal", water: "acre-ft", length: "in",
        perHa: 1 / acre, perMass: acre / 0.45359237, perL: 1 / 3.785411784,
        perM3: 1 / 1233.48183754752, perCm: 1 / 2.54 },
};

function number(x, digits) {
  return x.toLocaleString("en-US", { minimumFractionDigits: digits, maximumFractionDigits: digits }).replace(/^-(?=[0.]+$)/, "");
}

function currencyFormat(currency, digits) {
  try {
    const format = new Intl.NumberFormat("en-US", { style: "currency", currency, minimumFractionDigits: digits, maximumFractionDigits: digits });
    return (x) => format.format(x).replace(/^-(?=[^1-9]*$)/, "");
  } catch {
    return (x) => `${number(x, digits)} ${currency}`;
  }
}

// A price by t, ha, bale, L, m3 or h in the farm's own unit of it.
const ownUnits = { t: ["ton", 0.90718474], ha: ["ac", acre], L: ["gal", 3.785411784], m3: ["acre-ft", 1233.48183754752] };

function priceWords(farm, value, by) {
  const [unit, holds] = farm.units === "us" && ownUnits[by] ? ownUnits[by] : [by === "m3" ? "m³" : by, 1];
  const shown = value * holds;
  return `${currencyFormat(farm.currency, shown < 0.1 && shown > 0 ? 4 : 2)(shown)}/${unit}`;
}

export function unitsOf(farm) {
  const u = systems[farm.units];
  const whole = currencyFormat(farm.currency, 0);
  return {
    ...u,
    number,
    money: whole,
    moneyPerArea: (perHa) => `${whole(perHa / u.perHa)}/${u.area}`,
    areaWords: (ha) => `${number(ha * u.perHa, ha * u.perHa < 100 ? 1 : 0)} ${u.area}`,
    massWords: (kgPerHa) => `${number(kgPerHa * u.perMass, 0)} ${u.mass}`,
    massNumber: (kgPerHa) => number(kgPerHa * u.perMass, 0),
    massFine: (kgPerHa) => number(kgPerHa * u.perMass, 1),
    fuelNumber: (l) => number(l * u.perL, 0),
    waterNumber: (m3) => number(m3 * u.perM3, farm.units === "us" ? 1 : 0),
    lengthWords: (cm) => `${number(cm * u.perCm, 0)} ${u.length}`,
    strawWords: (t) => (farm.units === "us" ? `${number(t / 0.90718474, 0)} tons` : `${number(t, 0)} t`),
    hours: (h) => number(h, h < 10 ? 1 : 0),
    // Sums in sentences of the plan, "1,234 USD", written as everywhere else on the page.
    told: (text) => text.replace(new RegExp(`(\\d[\\d,]*(?:\\.\\d+)?) ${farm.currency}\\b`, "g"), (_, sum) => whole(0).replace("0", sum)).replaceAll("/acre", "/ac"),
    price: (value, by) => priceWords(farm, value, by),
  };
}
