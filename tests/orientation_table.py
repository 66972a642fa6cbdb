"""The eight orientations of the Exif and TIFF standards, as a check value of one home."""

#: Exif 2.32 (CIPA DC-008), tag 0x0112, worded as in TIFF 6.0 tag 274: the stored rows [[1,2,3],[4,5,6]] as displayed.
DISPLAYED = {
    1: [[1, 2, 3], [4, 5, 6]],
    2: [[3, 2, 1], [6, 5, 4]],
    3: [[6, 5, 4], [3, 2, 1]],
    4: [[4, 5, 6], [1, 2, 3]],
    5: [[1, 4], [2, 5], [3, 6]],
    6: [[4, 1], [5, 2], [6, 3]],
    7: [[6, 3], [5, 2], [4, 1]],
    8: [[3, 6], [2, 5], [1, 4]],
}
