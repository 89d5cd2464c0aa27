// Judging a bird by points.
export const judging = {
  link: "Judge by points",
  title: (label: string) => `Judge ${label}`,
  under:
    "Name what you judge and give it points; faults cut some off. Use the same parts for all birds you compare.",
  trait: "What is judged",
  points: "Points",
  fault: "What is wrong",
  cut: "Points off",
  addTrait: "Another part",
  addFault: "Another fault",
  total: (points: string) => `${points} points in all`,
  noPoints: "Type the points as a number, nought or more.",
  noTrait: "Say what these points are for.",
  twice: "This stands above already.",
  nothing: "Give points to one part at least.",
  save: "Write the points down",
  scored: (total: string, parts: string) => `Judged: ${total} points (${parts})`,
  part: (trait: string, points: string) => `${trait} ${points}`,
} as const;
