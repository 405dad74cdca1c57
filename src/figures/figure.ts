import { roundTo } from '../units/decimal.ts'
import { formatPace } from '../units/duration.ts'

/** What can be explained about a figure without a session. */
export interface Explanation {
  title: string
  /** Other words by which it can be found. */
  aliases: readonly string[]
  /** In plain characters, one per line. */
  equation: readonly string[]
  symbols: readonly Letter[]
  sources: readonly SourceName[]
  holds: string
  holdsNot: string
  /** The steps with the numbers of the invented athlete of the samples, one per line, the result last. */
  example: () => string[]
}

/** A figure of a session, which can be worked out from its numbers. */
export interface Figure<Inputs> extends Explanation {
  /** The steps with the numbers put in, one per line, the result last. */
  work: (inputs: Inputs) => string[]
}

/** The meaning of a letter, and its unit, "-" without one. */
type Letter = readonly [symbol: string, meaning: string, unit: string]

type Written = Omit<Explanation, 'symbols'> & { symbols?: readonly Letter[] }

export function explanation(written: Written): Explanation {
  return { symbols: [], ...written }
}

/** Builds a figure of a session, whose example is worked out like any other. */
export function figure<Inputs>({
  example,
  work,
  ...rest
}: Omit<Written, 'example'> & Pick<Figure<Inputs>, 'work'> & { example: Inputs }): Figure<Inputs> {
  return { ...explanation({ ...rest, example: () => work(example) }), work }
}

/** Prints a number for a step, with at most this many decimals and no trailing zeros. */
export function num(value: number, decimals = 2): string {
  return String(roundTo(value, decimals))
}

/** Prints a pace for a step, from seconds per kilometre: `3:57.0/km`. */
export function perKm(secondsPerKm: number): string {
  return formatPace(secondsPerKm, 'km', 1)
}

/** Prints a figure for a step, or "not known". */
export function known(value: number | null, unit = '', decimals = 2): string {
  return value === null ? 'not known' : `${num(value, decimals)}${unit === '' ? '' : ` ${unit}`}`
}

/** How far binary rounding may put a figure beside a limit that it meets. */
export const noise = 1e-9

/* The sources of the figures, in one place: `explain` prints these lines, each docstring in this room
 * ends with the names of its sources, and the tests name them beside each check. */

/** Checked against the publication or a copy of its equation. */
const published = {
  'Epley 1985': 'Epley B (1985) Poundage chart. In: Boyd Epley Workout. Lincoln NE: Body Enterprises, p. 86',
  'Brzycki 1993':
    'Brzycki M (1993) Strength testing: predicting a one-rep max from reps-to-fatigue. JOPERD 64(1):88-90',
  'Lander 1985': 'Lander J (1985) Maximums based on reps. NSCA Journal 6(6):60-61',
  'Lombardi 1989': 'Lombardi VP (1989) Beginning Weight Training. Dubuque IA: W.C. Brown',
  'Mayhew 1992': 'Mayhew JL et al. (1992) J Appl Sport Sci Res 6(4):200-206',
  "O'Conner 1989": "O'Conner B, Simmons J, O'Shea P (1989) Weight Training Today. St Paul MN: West",
  'Wathen 1994':
    'Wathen D (1994) Load assignment. In: Baechle TR (ed) Essentials of Strength Training and Conditioning. Human Kinetics, 435-446',
  'LeSuer 1997': 'LeSuer DA et al. (1997) J Strength Cond Res 11(4):211-213',
  'Reynolds 2006': 'Reynolds JM, Gordon TJ, Robergs RA (2006) J Strength Cond Res 20(3):584-592',
  'Zourdos 2016': 'Zourdos MC et al. (2016) J Strength Cond Res 30(1):267-275',
  'Hackett 2017':
    'Hackett DA et al. (2017) J Strength Cond Res 31(8):2162-2168 (off by about one repetition with 0 to 5 in reserve, by more than two with 7 to 10)',
  'Halperin 2022': 'Halperin I et al. (2022) Sports Med 52(2):377-390',
  'Iglesias-Soler 2014': 'Iglesias-Soler E et al. (2014) Int J Sports Physiol Perform 9:637-642',
  'Tufano 2017':
    'Tufano JJ et al. (2017) J Hum Kinet 58:35-43 (its protocols: 3 x (4+4+4), 9 x 4 and 36 x 1)',
  'Abbiss 2008': 'Abbiss CR, Laursen PB (2008) Sports Med 38(3):239-252',
  'Foster 1998': 'Foster C (1998) Med Sci Sports Exerc 30(7):1164-1168',
  'Foster 2001': 'Foster C et al. (2001) J Strength Cond Res 15(1):109-115',
  'Daniels and Gilbert 1979':
    'Daniels J, Gilbert J (1979) Oxygen Power: Performance Tables for Distance Runners. Tempe AZ',
  'Riegel 1977': "Riegel PS (1977) Time predicting. Runner's World, August (the exponent 1.06)",
  'Riegel 1981':
    'Riegel PS (1981) Athletic records and human endurance. American Scientist 69(3):285-290 (the general form)',
  'Vickers 2016': "Vickers AJ, Vertosick EA (2016) BMC Sports Sci Med Rehabil 8:26 (on Riegel's rule)",
  'Merrill and Watt 1955':
    'Merrill AL, Watt BK (1955) Energy Value of Foods. USDA Agriculture Handbook 74 (Atwater general factors)',
  'Minetti 2002': 'Minetti AE et al. (2002) J Appl Physiol 93:1039-1046 (3.40 J/kg/m on the level)',
  'Margaria 1963': 'Margaria R et al. (1963) J Appl Physiol 18(2):367-370 (1.0 kcal/kg/km, net)',
  'Thomas 2016':
    'Thomas DT, Erdman KA, Burke LM (2016) Nutrition and Athletic Performance, ACSM joint position statement. Med Sci Sports Exerc 48(3):543-568',
  'Jaeger 2017':
    'Jaeger R et al. (2017) ISSN position stand: protein and exercise. J Int Soc Sports Nutr 14:20',
  'Bosquet 2007':
    'Bosquet L et al. (2007) Med Sci Sports Exerc 39(8):1358-1365 (two weeks, 41-60 % less volume, intensity and frequency kept)',
  'Wang 2023':
    'Wang Z et al. (2023) PLoS ONE 18(5):e0282838 (14 studies of endurance athletes: 41-60 % less volume, up to 21 days)',
  'Jeukendrup 2014':
    'Jeukendrup A (2014) Sports Med 44(Suppl 1):S25-S33 (up to about 60 g/h for 2-3 h, about 90 g/h of several sugars beyond)',
  'Garthe 2011':
    'Garthe I et al. (2011) Int J Sport Nutr Exerc Metab 21(2):97-104 (0.7 % a week kept and added lean mass, 1.4 % a week did not)',
}

/** Published, but written here from memory. */
const fromMemory = {
  'Zourdos 2021':
    'Zourdos MC et al. (2021) J Strength Cond Res 35 Suppl 1:S158-S165 (the error of predicted reserve grows away from failure)',
  'Richens 2014':
    'Richens B, Cleather DJ (2014) Biol Sport 31(2):157-161 (endurance-trained athletes do more repetitions at a percentage)',
  'Nuzzo 2024':
    'Nuzzo JL et al. (2024) Sports Med 54:303-321 (repetitions at a percentage, and how people differ)',
  'Ebben 2011':
    'Ebben WP et al. (2011) J Strength Cond Res 25(10):2891-2894 (a push-up moves about 64 % of the body mass)',
  'Doma and Deakin 2013':
    'Doma K, Deakin GB (2013) Appl Physiol Nutr Metab 38:651-656, from the abstract: time to exhaustion in running fell the day after strength training and running were combined',
  'Helms 2018': 'Helms ER et al. (2018): about 4 % of the load for a point of effort',
  'Welch 1947':
    'Welch BL (1947) Biometrika 34(1-2):28-35, with the degrees of freedom of Satterthwaite FE (1946) Biometrics Bulletin 2(6):110-114',
  'Mujika and Padilla 2000':
    'Mujika I, Padilla S (2000) Sports Med 30(2):79-87 and 30(3):145-154 (detraining; strength goes slowly)',
  'Monod and Scherrer 1965': 'Monod H, Scherrer J (1965) Ergonomics 8(3):329-338',
  'Hughson 1984': 'Hughson RL, Orok CJ, Staudt LE (1984) Int J Sports Med 5(1):23-25',
  'Jones and Vanhatalo 2017': 'Jones AM, Vanhatalo A (2017) Sports Med 47(Suppl 1):65-78',
  'Thomee 1997': 'Thomee R (1997) Phys Ther 77(12):1690-1703 (pain at the kneecap)',
  'Silbernagel 2007': 'Silbernagel KG et al. (2007) Am J Sports Med 35(6):897-906 (the Achilles tendon)',
}

/** Exact by agreement. */
const byDefinition = {
  'World Athletics track':
    'World Athletics, Track and Field Facilities Manual; Technical Rule 14 (0.30 m from the kerb in lane 1, 0.20 m from the line in the others)',
  'World Athletics distances':
    'World Athletics, Competition and Technical Rules: marathon 42 195 m, half marathon 21 097.5 m',
  'Yard and pound 1959':
    'International yard and pound agreement, 1959 (NIST SP 811): 1 yd = 0.9144 m, 1 lb = 0.45359237 kg',
  'IWF rules':
    "IWF Technical and Competition Rules: men's bar 20 kg, women's 15 kg, collars 2.5 kg each, discs 25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5 kg",
  'Least squares': 'Ordinary least squares; checked against NIST Statistical Reference Datasets, Norris',
  'Least squares with several predictors':
    'Ordinary least squares; checked against NIST Statistical Reference Datasets, Longley',
  't distribution':
    "Student's t, two-sided 95 %; checked against the table of the NIST/SEMATECH e-Handbook, 1.3.6.7.2",
  'Sample statistics': 'Arithmetic mean; standard deviation with n - 1; checked against NIST',
}

export const sources = {
  ...published,
  ...fromMemory,
  ...byDefinition,
  'Common practice': 'common practice, no source',
  "This program's own rule": "this program's own rule, no source",
}
export type SourceName = keyof typeof sources

/** The printed line of a source, with its kind if that is not obvious. */
export function sourceLine(name: SourceName): string {
  const kind = name in fromMemory ? ' [from memory]' : name in byDefinition ? ' [by definition]' : ''
  return sources[name] + kind
}
