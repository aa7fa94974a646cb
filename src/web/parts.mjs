// The parts of a cost, in the order in which they are shown.

export const partNames = {
  fuel: "Fuel and oil", wages: "Wages", hire: "Hired outfits", twine: "Twine", repair: "Repairs", water: "Water", fees: "Fees",
  late: "Yield lost by planting late", unplanted: "Lost where the field stays unplanted", straw_income: "Straw sold", lease_income: "Paid for holding water",
  ownership: "Owning the machines", own_labour: "Your own hours",
};
