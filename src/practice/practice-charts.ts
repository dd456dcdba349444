import type { ChartFile } from "../contract/index.ts";

/** An invented drug chart with something to see in it. */
export interface PracticeChart {
  readonly id: string;
  readonly title: string;
  readonly teaches: string;
  readonly chart: ChartFile;
}

export const practiceCharts: readonly PracticeChart[] = [
  {
    id: "looks-like-three",
    title: "Looks like three lumens",
    teaches: "Two are enough when one drug moves by two hours.",
    chart: {
      infusions: [
        { name: "nutrition", times: "20:00", runMinutes: 720, content: "nutrition", rateMlPerHour: 120 },
        { name: "vancomycin", times: "09:00 21:00", runMinutes: 120, flushAfterMinutes: 15, moveMinutes: 120 },
        { name: "meropenem", times: "06:00 14:00 22:00", runMinutes: 30, flushAfterMinutes: 15, moveMinutes: 60 },
        { name: "aciclovir", times: "08:00 16:00 23:30", runMinutes: 60, flushAfterMinutes: 15, moveMinutes: 60 },
        {
          name: "fluconazole",
          times: "10:30",
          runMinutes: 60,
          flushAfterMinutes: 15,
          moveMinutes: 120,
          oralForm: true,
        },
      ],
      together: [["vancomycin", "meropenem", "incompatible"]],
    },
  },
  {
    id: "one-is-enough",
    title: "Four drugs, one lumen",
    teaches: "Drugs that take turns need no second lumen.",
    chart: {
      infusions: [
        { name: "ceftriaxone", times: "08:00", runMinutes: 30, flushAfterMinutes: 10, moveMinutes: 60 },
        { name: "metronidazole", times: "06:00 14:00 22:00", runMinutes: 60, flushAfterMinutes: 10, moveMinutes: 60 },
        { name: "fluconazole", times: "10:00", runMinutes: 60, flushAfterMinutes: 10, moveMinutes: 120 },
        { name: "pantoprazole", times: "08:00", runMinutes: 15, flushAfterMinutes: 10, moveMinutes: 60 },
      ],
    },
  },
  {
    id: "three-that-chase",
    title: "Three that chase round the clock",
    teaches: "Never more than two at once, and three lumens still: each overlaps the next round midnight.",
    chart: {
      infusions: [
        { name: "drug A", times: "00:00", runMinutes: 600 },
        { name: "drug B", times: "08:00", runMinutes: 600 },
        { name: "drug C", times: "16:00", runMinutes: 600 },
      ],
    },
  },
];
