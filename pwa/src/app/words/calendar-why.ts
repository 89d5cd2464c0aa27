// Why a setting's days are what they are.

export const calendarWhy = {
  about: "The days of a setting",
  formula:
    "Day 0 is the day of setting; day n begins n times 24 hours later, whatever clocks do. Published tables differ by a day or two.",
  period: "First to last day of the usual hatch",
  lockdown: "Turning stops on day",
  own: "You chose day",
  candle: "Candling on day",
  span: (low: number, high: number) => `${low} to ${high}`,
} as const;
