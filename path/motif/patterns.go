package motif

// Patterns returns the patterns in the order in which the page offers them: first
// those that fill a block with one flowing line, then figures, then ruler work.
func Patterns() []Pattern {
	return []Pattern{
		stipplePattern, swirlsPattern, doubleSpiralPattern, spiralPattern, loopsPattern,
		eightsPattern, wavesPattern, ribbonPattern, toAndFroPattern,
		pebblesPattern, featherPattern, vinePattern, paisleyPattern, flowerPattern,
		clamshellPattern, fansPattern, peelPattern,
		echoPattern, squareSpiralPattern, linesPattern, crosshatchPattern,
		hangingDiamondsPattern, dotToDotPattern, diamondsPattern, starsPattern, sunburstPattern,
	}
}
