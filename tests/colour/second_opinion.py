"""Colour differences by scikit-image: reads lines "L a b L a b", prints "dE00 dE76 dE94" for each."""

import sys

import numpy
from skimage.color import deltaE_cie76, deltaE_ciede94, deltaE_ciede2000

pairs = numpy.loadtxt(sys.argv[1])
reference, sample = pairs[:, :3], pairs[:, 3:]
for row in zip(
    deltaE_ciede2000(reference, sample), deltaE_cie76(reference, sample), deltaE_ciede94(reference, sample)
):
    print("%.17g %.17g %.17g" % row)
