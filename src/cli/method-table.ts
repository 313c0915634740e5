/** From a method's id to its function: what `check cases` runs. Grows with the rooms of core. */

import { blankCorrectedMassLoss, cleaningSeries } from "../core/climate/cleaning-loss.ts";
import {
  chlorideClass,
  corrosivityCategory,
  indoorCategory,
  so2Class,
  timeOfWetnessClass,
} from "../core/climate/climate-classes.ts";
import { corrosionRateFromMassLoss } from "../core/climate/corrosion-rate.ts";
import { couponArea } from "../core/climate/coupon-area.ts";
import { deliquescenceRh } from "../core/climate/deliquescence.ts";
import { chlorideExponentIncrement, doseResponse, longTermAttack } from "../core/climate/dose-response.ts";
import {
  absoluteHumidity,
  dewPoint,
  dewPointMargin,
  rhAtSurface,
  saturationVapourPressure,
} from "../core/climate/humid-air.ts";
import { steelTimeConstant, steelWarmUp } from "../core/climate/steel-warm-up.ts";
import { timeOfWetness } from "../core/climate/time-of-wetness.ts";
import { coatingMassFromGain } from "../core/coating/mass-from-gain.ts";
import { coatingMassPerArea } from "../core/coating/mass-per-area.ts";
import { coatingMassInGM2 } from "../core/coating/mass-unit.ts";
import { steelDissolved } from "../core/coating/steel-dissolved.ts";
import { coatingMassFromThickness, thicknessFromCoatingMass } from "../core/coating/thickness.ts";
import { weighStripWeigh } from "../core/coating/weigh-strip-weigh.ts";
import { weighingUncertainty } from "../core/coating/weighing-uncertainty.ts";
import { betaDistribution } from "../core/numeric/beta-distribution.ts";
import { binomialDistribution } from "../core/numeric/binomial-distribution.ts";
import { chi2Distribution } from "../core/numeric/chi2-distribution.ts";
import { fDistribution } from "../core/numeric/f-distribution.ts";
import { gammaDistribution } from "../core/numeric/gamma-distribution.ts";
import { hypergeometricDistribution } from "../core/numeric/hypergeometric-distribution.ts";
import { regularizedIncompleteBeta } from "../core/numeric/incomplete-beta.ts";
import { noncentralTDistribution } from "../core/numeric/noncentral-t-distribution.ts";
import { normalDistribution } from "../core/numeric/normal-distribution.ts";
import { studentizedRangeDistribution } from "../core/numeric/studentized-range-distribution.ts";
import { tDistribution } from "../core/numeric/t-distribution.ts";
import { assessedArea } from "../core/rating/assessed-area.ts";
import { breakthroughInterval, strokesPerMicrometre } from "../core/rating/breakthrough.ts";
import { crossCutClass, crossCutSpacing } from "../core/rating/cross-cut.ts";
import { fallingSand } from "../core/rating/falling-sand.ts";
import { areaPercentFromProtectionRating, protectionRatingContinuous } from "../core/rating/iso10289-rating.ts";
import { rustGrade } from "../core/rating/rust-grade.ts";
import { scribeCreepback, unscribedAreaRating } from "../core/rating/scribe-creepback.ts";
import { tapeTestSummary } from "../core/rating/tape-test-summary.ts";
import { wearCyclesPerMil, wearIndex } from "../core/rating/wear-index.ts";
import { wetScrub } from "../core/rating/wet-scrub.ts";
import { xCutClass } from "../core/rating/x-cut.ts";
import { anovaOneWay } from "../core/statistics/anova-one-way.ts";
import { balancedIncompleteBlock } from "../core/statistics/balanced-incomplete-block.ts";
import { benjaminiHochberg } from "../core/statistics/benjamini-hochberg.ts";
import { blandAltman } from "../core/statistics/bland-altman.ts";
import { blockAnova } from "../core/statistics/block-anova.ts";
import { boschloo } from "../core/statistics/boschloo.ts";
import { brownForsythe } from "../core/statistics/brown-forsythe.ts";
import { cliffsDelta } from "../core/statistics/cliffs-delta.ts";
import { cochranMantelHaenszel } from "../core/statistics/cochran-mantel-haenszel.ts";
import { detectableDifference } from "../core/statistics/detectable-difference.ts";
import { dunnett } from "../core/statistics/dunnett.ts";
import { dunnettStepDown } from "../core/statistics/dunnett-step-down.ts";
import { e691, e691Critical } from "../core/statistics/e691.ts";
import { exponentialMle } from "../core/statistics/exponential-mle.ts";
import { fisherExact } from "../core/statistics/fisher-exact.ts";
import { freemanHalton } from "../core/statistics/freeman-halton.ts";
import { friedman } from "../core/statistics/friedman.ts";
import { friedmanExact } from "../core/statistics/friedman-exact.ts";
import { gaugeRepeatability } from "../core/statistics/gauge-repeatability.ts";
import { grubbs } from "../core/statistics/grubbs.ts";
import { hodgesLehmann } from "../core/statistics/hodges-lehmann.ts";
import { hodgesLehmannPaired } from "../core/statistics/hodges-lehmann-paired.ts";
import { holm } from "../core/statistics/holm.ts";
import { icc21 } from "../core/statistics/intraclass-correlation.ts";
import { jonckheere } from "../core/statistics/jonckheere.ts";
import { kaplanMeier } from "../core/statistics/kaplan-meier.ts";
import { cohenKappa, weightedKappa } from "../core/statistics/kappa.ts";
import { krippendorffAlpha } from "../core/statistics/krippendorff-alpha.ts";
import { kruskalWallis } from "../core/statistics/kruskal-wallis.ts";
import { linearRegression } from "../core/statistics/linear-regression.ts";
import { logRank } from "../core/statistics/log-rank.ts";
import { logRankPermutation } from "../core/statistics/log-rank-permutation.ts";
import { lognormalMle } from "../core/statistics/lognormal-mle.ts";
import { mcnemarExact } from "../core/statistics/mcnemar-exact.ts";
import { minimalDetectable } from "../core/statistics/minimal-detectable.ts";
import { newcombeDifference } from "../core/statistics/newcombe-difference.ts";
import { pageTrend } from "../core/statistics/page-trend.ts";
import { pairedT } from "../core/statistics/paired-t.ts";
import { gamesHowell, tukeyHsd } from "../core/statistics/pairs-of-means.ts";
import { permutationMeans } from "../core/statistics/permutation-means.ts";
import { permutationPaired } from "../core/statistics/permutation-paired.ts";
import { logRankSchoenfeld } from "../core/statistics/power-log-rank-schoenfeld.ts";
import { powerTOneSample } from "../core/statistics/power-t-one-sample.ts";
import { powerTTwoSample } from "../core/statistics/power-t-two-sample.ts";
import { twoProportionsExact } from "../core/statistics/power-two-proportions.ts";
import { wilcoxonProportionalHazards } from "../core/statistics/power-wilcoxon-hazards.ts";
import { wilcoxonOrdinal } from "../core/statistics/power-wilcoxon-ordinal.ts";
import { clopperPearson, jeffreys } from "../core/statistics/proportion-interval.ts";
import { sampleSizeT } from "../core/statistics/sample-size-t.ts";
import { shapiroWilk } from "../core/statistics/shapiro-wilk.ts";
import { signTest } from "../core/statistics/sign-test.ts";
import { smallestPossibleP } from "../core/statistics/smallest-possible-p.ts";
import { splitPlotAnova } from "../core/statistics/split-plot-anova.ts";
import { successRun } from "../core/statistics/success-run.ts";
import { successRunUnits } from "../core/statistics/success-run-units.ts";
import { summary } from "../core/statistics/summary.ts";
import { timeFactor } from "../core/statistics/time-factor.ts";
import { tostPaired } from "../core/statistics/tost-paired.ts";
import { tostRank } from "../core/statistics/tost-rank.ts";
import { tostWelch } from "../core/statistics/tost-welch.ts";
import { turnbull } from "../core/statistics/turnbull.ts";
import { weibayes } from "../core/statistics/weibayes.ts";
import { weibullMle } from "../core/statistics/weibull-mle.ts";
import { welchAnova } from "../core/statistics/welch-anova.ts";
import { welchT } from "../core/statistics/welch-t.ts";
import { wilcoxonExact } from "../core/statistics/wilcoxon-exact.ts";
import { wilcoxonSignedRank } from "../core/statistics/wilcoxon-signed-rank.ts";
import { wilcoxonStratified } from "../core/statistics/wilcoxon-stratified.ts";
import { wilsonInterval } from "../core/statistics/wilson-interval.ts";
import { zeroFailureBound } from "../core/statistics/zero-failure-bound.ts";
import { deltaE2000 } from "../core/vision/colour-difference.ts";
import { labFromSrgb } from "../core/vision/colour-lab.ts";

// Each method takes the named arguments of its cases and returns its named results; `never` lets every typed function stand here.
type Method = (input: never) => unknown;

export const methodTable: Readonly<Record<string, Method>> = {
  "distribution.beta": betaDistribution,
  "distribution.binomial": binomialDistribution,
  "distribution.chi2": chi2Distribution,
  "distribution.f": fDistribution,
  "distribution.gamma": gammaDistribution,
  "distribution.hypergeometric": hypergeometricDistribution,
  "distribution.noncentralT": noncentralTDistribution,
  "distribution.normal": normalDistribution,
  "distribution.regularizedIncompleteBeta": regularizedIncompleteBeta,
  "distribution.studentizedRange": studentizedRangeDistribution,
  "distribution.t": tDistribution,
  "abrasion.cyclesPerMil": (panel: Parameters<typeof wearCyclesPerMil>[0]) => ({
    cyclesPerMil: wearCyclesPerMil(panel),
  }),
  "abrasion.fallingSand": fallingSand,
  "abrasion.wearIndex": (panel: Parameters<typeof wearIndex>[0]) => ({ wearIndexMgPer1000Cycles: wearIndex(panel) }),
  "abrasion.wetScrub": wetScrub,
  "climate.absoluteHumidity": (air: Parameters<typeof absoluteHumidity>[0]) => ({
    absoluteHumidityGM3: absoluteHumidity(air),
  }),
  "climate.chlorideClass": (air: { chlorideDepositionMgM2Day: number }) => ({
    class: chlorideClass(air.chlorideDepositionMgM2Day),
  }),
  "climate.chlorideExponentIncrement": (air: { chlorideDepositionMgM2Day: number }) => ({
    exponentIncrement: chlorideExponentIncrement(air.chlorideDepositionMgM2Day),
  }),
  "climate.corrosivityCategory": (loss: Parameters<typeof corrosivityCategory>[0]) => ({
    category: corrosivityCategory(loss),
  }),
  "climate.deliquescenceRh": (at: Parameters<typeof deliquescenceRh>[0]) => ({ rhPercent: deliquescenceRh(at) }),
  "climate.dewPoint": (air: Parameters<typeof dewPoint>[0]) => ({ dewPointC: dewPoint(air) }),
  "climate.dewPointMargin": dewPointMargin,
  "climate.doseResponse": doseResponse,
  "climate.indoorCategory": (loss: Parameters<typeof indoorCategory>[0]) => ({ category: indoorCategory(loss) }),
  "climate.longTermAttack": (exposure: Parameters<typeof longTermAttack>[0]) => ({
    attackUm: longTermAttack(exposure),
  }),
  "climate.rhAtSurface": rhAtSurface,
  "climate.saturationVapourPressure": ({ tempC }: { tempC: number }) => ({
    pressureHPa: saturationVapourPressure(tempC),
  }),
  "climate.so2Class": (air: Parameters<typeof so2Class>[0]) => ({ class: so2Class(air) }),
  "climate.steelTimeConstant": (body: Parameters<typeof steelTimeConstant>[0]) => ({
    timeConstantS: steelTimeConstant(body),
  }),
  "climate.steelWarmUp": steelWarmUp,
  "climate.timeOfWetness": timeOfWetness,
  "climate.timeOfWetnessClass": ({ wetHoursPerYear }: { wetHoursPerYear: number }) => ({
    class: timeOfWetnessClass(wetHoursPerYear),
  }),
  "coating.fromGain": coatingMassFromGain,
  "coating.massToThickness": (layer: Parameters<typeof thicknessFromCoatingMass>[0]) => ({
    thicknessUm: thicknessFromCoatingMass(layer),
  }),
  "coating.massUnit": (mass: Parameters<typeof coatingMassInGM2>[0]) => ({ coatingMassGM2: coatingMassInGM2(mass) }),
  "coating.steelDissolved": steelDissolved,
  "coating.thicknessToMass": (layer: Parameters<typeof coatingMassFromThickness>[0]) => ({
    coatingMassGM2: coatingMassFromThickness(layer),
  }),
  "coating.weighStripWeigh": weighStripWeigh,
  "coating.weighingUncertainty": weighingUncertainty,
  "coating.massPerArea": (coupon: Parameters<typeof coatingMassPerArea>[0]) => ({
    coatingMassGM2: coatingMassPerArea(coupon),
  }),
  "colour.deltaE2000": (pair: Parameters<typeof deltaE2000>[0]) => ({ deltaE: deltaE2000(pair) }),
  "colour.labFromSrgb": labFromSrgb,
  "corrosion.blankCorrectedMassLoss": (coupon: Parameters<typeof blankCorrectedMassLoss>[0]) => ({
    massLossMg: blankCorrectedMassLoss(coupon),
  }),
  "corrosion.cleaningSeries": cleaningSeries,
  "corrosion.couponArea": (coupon: Parameters<typeof couponArea>[0]) => ({ areaMm2: couponArea(coupon) }),
  "corrosion.rateFromMassLoss": (coupon: Parameters<typeof corrosionRateFromMassLoss>[0]) => ({
    rate: corrosionRateFromMassLoss(coupon),
  }),
  "agreement.blandAltman": blandAltman,
  "agreement.cohenKappa": cohenKappa,
  "agreement.gaugeRepeatability": gaugeRepeatability,
  "agreement.icc21": icc21,
  "agreement.krippendorffAlpha": krippendorffAlpha,
  "agreement.weightedKappa": weightedKappa,
  "means.anovaOneWay": anovaOneWay,
  "means.balancedIncompleteBlock": balancedIncompleteBlock,
  "means.brownForsythe": brownForsythe,
  "means.gamesHowell": gamesHowell,
  "means.grubbs": grubbs,
  "means.linearRegression": linearRegression,
  "means.pairedT": pairedT,
  "means.shapiroWilk": shapiroWilk,
  "means.splitPlotAnova": splitPlotAnova,
  "means.tukeyHsd": tukeyHsd,
  "means.welchAnova": welchAnova,
  "proportion.boschloo": boschloo,
  "proportion.cmh": cochranMantelHaenszel,
  "proportion.fisherExact": fisherExact,
  "proportion.freemanHalton": freemanHalton,
  "proportion.mcnemarExact": mcnemarExact,
  "proportion.newcombeDifference": newcombeDifference,
  "proportion.clopperPearson": clopperPearson,
  "proportion.jeffreys": jeffreys,
  "proportion.wilson": wilsonInterval,
  "rating.areaPercentFromProtectionRating": ({ rating }: { rating: number }) => ({
    areaPercent: areaPercentFromProtectionRating(rating),
  }),
  "rating.assessedArea": (face: Parameters<typeof assessedArea>[0]) => ({ areaMm2: assessedArea(face) }),
  "rating.crossCutSpacing": crossCutSpacing,
  "rating.protectionRatingContinuous": ({ areaPercent }: { areaPercent: number }) => ({
    rating: protectionRatingContinuous(areaPercent),
  }),
  "rating.rustGradeFromAreaPercent": (face: Parameters<typeof rustGrade>[0]) => ({ grade: rustGrade(face) }),
  "rating.scribeCreepback": scribeCreepback,
  "rating.tapeTestCrossCut": (cut: Parameters<typeof crossCutClass>[0]) => ({ grade: crossCutClass(cut) }),
  "rating.tapeTestSummary": ({ grades }: { grades: Parameters<typeof tapeTestSummary>[0] }) => tapeTestSummary(grades),
  "rating.tapeTestXCut": (cut: Parameters<typeof xCutClass>[0]) => ({ grade: xCutClass(cut) }),
  "rating.unscribedAreaRating": ({ areaPercent }: { areaPercent: number }) => ({
    rating: unscribedAreaRating(areaPercent),
  }),
  "means.randomizedBlockAnova": blockAnova,
  "statistics.blockAnova": blockAnova,
  "statistics.detectableDifference": (plan: Parameters<typeof detectableDifference>[0]) => ({
    differenceInSd: detectableDifference(plan),
  }),
  "statistics.e691": e691,
  "statistics.e691Critical": e691Critical,
  "statistics.friedman": friedman,
  "statistics.summary": summary,
  "statistics.welchT": welchT,
  "statistics.wilsonInterval": wilsonInterval,
  "survival.turnbull": turnbull,
  "comparison.logRankPermutation": logRankPermutation,
  "comparison.wilcoxonExact": wilcoxonExact,
  "comparison.hodgesLehmann": hodgesLehmann,
  "comparison.cliffsDelta": cliffsDelta,
  "survival.weibullMle": weibullMle,
  "survival.lognormalMle": lognormalMle,
  "survival.exponentialMle": exponentialMle,
  "survival.timeFactor": timeFactor,
  "survival.kaplanMeier": kaplanMeier,
  "survival.successRun": successRun,
  "survival.successRunUnits": successRunUnits,
  "survival.zeroFailureBound": zeroFailureBound,
  "survival.weibayes": weibayes,
  "comparison.logRank": logRank,
  "comparison.permutationMeans": permutationMeans,
  "comparison.permutationPaired": permutationPaired,
  "comparison.signTest": signTest,
  "comparison.wilcoxonSignedRank": wilcoxonSignedRank,
  "comparison.hodgesLehmannPaired": hodgesLehmannPaired,
  "comparison.wilcoxonStratified": wilcoxonStratified,
  "comparison.kruskalWallis": kruskalWallis,
  "comparison.jonckheere": jonckheere,
  "comparison.friedmanExact": friedmanExact,
  "comparison.pageTrend": pageTrend,
  "comparison.holm": holm,
  "comparison.benjaminiHochberg": benjaminiHochberg,
  "comparison.tostWelch": tostWelch,
  "comparison.tostPaired": tostPaired,
  "comparison.tostRank": tostRank,
  "comparison.dunnett": dunnett,
  "comparison.dunnettStepDown": dunnettStepDown,
  "power.tTwoSample": powerTTwoSample,
  "power.tOneSample": powerTOneSample,
  "power.sampleSizeT": sampleSizeT,
  "comparison.minimalDetectable": minimalDetectable,
  "power.logRankSchoenfeld": logRankSchoenfeld,
  "power.twoProportionsExact": twoProportionsExact,
  "power.wilcoxonProportionalHazards": wilcoxonProportionalHazards,
  "power.wilcoxonOrdinal": wilcoxonOrdinal,
  "power.smallestPossibleP": smallestPossibleP,
  "wear.breakthroughInterval": breakthroughInterval,
  "wear.strokesPerMicrometre": strokesPerMicrometre,
};
