"""What the harbour household photographed: one line a press of the button (or a burst), in true local time.

    day time device scene/mood/form seed shape options

Shape: L landscape, P portrait, S square, W large landscape, K small, M and N landscape and portrait with fewer pixels.
Options: `o6` stored turned with that Exif orientation, `burst=5/0.9` frames and seconds between them, `lean=0.02` seen
from further right (share of the width), `gps`, `heic`. Lines with one seed show one occasion.

The week from 2026-01-19 to 2026-01-25 is empty on purpose. The first photos of the compact camera, and those after that
week, are late enough that its slow clock reaches neither before the first week nor into the empty one.
"""

PHOTOS = """
2025-11-11 17:38:20 ada     lanterns/clear            1 L burst=3/0.9
2025-11-11 17:52:05 ben     lanterns/mist             2 P o6
2025-11-12 08:05:12 ben     tram_stop/rain            4 L
2025-11-13 15:30:44 ada     avenue/autumn             5 N o6 gps
2025-11-15 10:12:30 ada     market/morning            6 L
2025-11-15 10:12:38 compact market/morning            6 L lean=0.015
2025-11-15 10:31:02 ada     market/morning            7 P o8
2025-11-15 10:47:19 compact gull_post/day             8 L
2025-11-16 16:18:55 ada     harbour/dusk              9 W gps
2025-11-16 16:19:07 compact harbour/dusk              9 L lean=0.018
2025-11-16 23:50:12 ada     reading/night            10 P o6

2025-11-17 00:20:33 ada     cat_window/night         11 S
2025-11-18 07:58:03 ben     tram_stop/dusk           12 L
2025-11-18 14:25:50 compact harbour/fog/row          13 L lean=0.012
2025-11-18 14:26:04 ada     harbour/fog/row          13 L
2025-11-22 14:40:11 ada     avenue/late/bench        15 M
2025-11-22 14:40:20 compact avenue/late/bench        15 L lean=-0.012
2025-11-22 15:05:27 ada     allotment/autumn         16 N
2025-11-22 15:06:10 ben     allotment/autumn/person  17 L
2025-11-23 11:20:09 ada     table/soup-dark          18 L

2025-11-25 16:02:31 ben     pier/mist                19 L
2025-11-28 12:15:22 ada     lighthouse/storm         21 L gps
2025-11-28 12:15:35 compact lighthouse/storm         21 L lean=0.018
2025-11-29 16:33:48 ada     harbour/night            22 P o6
2025-11-29 17:10:05 ben     market/advent            23 P o6
2025-11-30 10:05:17 ada     table/baking-oak         24 L
2025-11-30 17:21:40 ada     kitchen/evening/candles  25 S

2025-12-01 08:12:55 compact snow_roofs/falling       26 L lean=0.012
2025-12-01 08:13:06 ada     snow_roofs/falling       26 L
2025-12-05 20:18:36 ben     reading/evening          28 L heic
2025-12-06 17:02:10 ada     market/advent            29 L burst=3/1.4
2025-12-06 17:02:20 compact market/advent            29 L lean=0.012
2025-12-07 14:12:58 ada     gull_post/winter         30 L
2025-12-07 15:44:02 ada     pier/snow                31 P o8

2025-12-09 07:45:20 ben     tram_stop/day            33 P o6
2025-12-13 09:40:15 ada     ferry/winter             35 L gps
2025-12-13 09:40:28 compact ferry/winter             35 L lean=0.018
2025-12-13 10:23:15 ben     ferry/clear/deck         37 L
2025-12-13 12:08:33 ada     lighthouse/clear         38 P o5
2025-12-13 15:58:26 ada     ferry/sunset             40 W
2025-12-14 11:02:19 ben     cat_window/gold          41 S heic

2025-12-16 16:05:41 compact snow_roofs/blue          42 L lean=-0.018
2025-12-16 16:05:52 ada     snow_roofs/blue          42 L
2025-12-18 08:22:13 ada     harbour/snow             43 L
2025-12-20 13:15:30 ada     sledging/bright          44 L burst=4/0.8 gps
2025-12-20 13:15:31 compact sledging/bright          44 L lean=0.012
2025-12-20 13:40:55 ben     sledging/bright          45 L
2025-12-21 18:30:27 ada     fir_tree/warm            46 P o6
2025-12-21 18:32:05 ben     tram_stop/snow          147 P o6 heic

2025-12-24 17:45:03 ada     fir_tree/night           49 L
2025-12-24 17:45:15 compact fir_tree/night           49 P o8 lean=0.012
2025-12-24 19:05:48 ben     kitchen/evening/candles  50 L
2025-12-26 11:10:37 ada     avenue/winter            52 N
2025-12-27 13:22:05 ben     kites/winter/dune        53 L
2025-12-28 15:47:30 ada     pier/sunset              54 L
2025-12-28 23:50:44 ada     table/album-dark         55 L

2025-12-29 00:20:08 ada     kitchen/late             56 P
2025-12-31 16:20:50 ada     snow_roofs/rose          57 L
2026-01-01 00:03:12 ada     fireworks/gold/people    58 M burst=4/1.1
2026-01-01 00:03:20 compact fireworks/gold/people    58 L lean=0.012
2026-01-01 00:06:41 ben     fireworks/colours        59 P o6
2026-01-01 01:30:25 ada     fireworks/late           60 M
2026-01-03 14:35:33 ben     sledging/pink            62 L
2026-01-04 10:15:27 ada     table/breakfast-white    63 S

2026-01-05 00:20:51 ben     reading/night           302 L
2026-01-06 09:12:38 ada     cat_window/snow/tree     65 L
2026-01-06 09:12:52 compact cat_window/snow/tree     65 L lean=0.018
2026-01-10 15:32:10 ada     cake/berry               67 L burst=3/0.7
2026-01-10 15:32:24 compact cake/berry               67 L lean=0.018
2026-01-10 15:36:18 ada     cake/berry/out           67 L
2026-01-10 16:45:02 ben     kitchen/winter           68 L
2026-01-11 12:20:30 ben     pier/clear               69 L
2026-01-11 13:02:47 ben     lighthouse/pink          70 P o6

2026-01-13 12:30:15 ada     harbour/morning          71 L o3
2026-01-15 13:44:20 compact pier/mist               173 L
2026-01-17 15:10:31 ada     sledging/snowing         74 P
2026-01-18 11:33:09 ada     table/album-oak          75 L o2
2026-01-18 16:12:55 compact harbour/gold             76 L lean=0.015
2026-01-18 16:13:03 ada     harbour/gold             76 L

2026-01-29 19:11:12 ada     reading/rain             78 P o6
2026-01-31 10:25:30 ada     market/grey              79 L
2026-01-31 10:25:47 compact market/grey              79 L lean=-0.012
2026-01-31 11:02:16 ada     gull_post/grey           80 S
2026-02-01 14:55:25 compact kites/storm              81 L lean=0.012
2026-02-01 14:55:31 ada     kites/storm              81 L burst=6/1.3 gps

2026-02-03 17:20:18 ada     lighthouse/blue          82 L o4
2026-02-05 12:40:33 ada     cake/cocoa               83 S
2026-02-07 13:05:50 ada     ferry/grey               84 L
2026-02-08 16:32:28 ada     pier/blue                85 P o6

2026-02-10 09:30:41 ada     seedlings/dull           86 L
2026-02-14 09:45:07 ada     table/breakfast-oak      88 P o7
2026-02-15 10:10:10 ada     allotment/frost          90 M
2026-02-15 10:10:24 compact allotment/frost          90 L lean=0.012

2026-02-17 08:15:33 ada     kitchen/morning/flowers  91 L
2026-02-18 16:02:12 compact tram_stop/day            92 L
2026-02-21 11:30:22 ada     allotment/digging/person 93 N o6
2026-02-22 14:18:50 ada     ferry/clear              94 L gps
2026-02-22 14:19:02 compact ferry/clear              94 L lean=0.012

2026-02-25 17:44:31 ada     cake/lemon               95 L
2026-02-26 10:05:14 ada     cat_window/sun           96 L
2026-02-28 10:40:20 ada     market/spring            97 P o6
2026-03-01 14:05:09 ada     kites/clear/dune         114 L burst=5/0.9 gps
2026-03-01 14:05:12 compact kites/clear/dune         114 L lean=0.012
2026-03-01 15:20:46 ada     avenue/spring            99 M
2026-03-01 23:50:18 ada     harbour/night/row       100 L

2026-03-02 00:20:27 ada     kitchen/midnight        101 L
2026-03-03 16:35:40 ada     seedlings/sun           102 L
2026-03-07 11:15:30 ada     allotment/spring        104 M
2026-03-07 11:15:44 compact allotment/spring        104 L lean=0.012
2026-03-08 17:50:05 ada     gull_post/gold          105 L
2026-03-08 18:10:00 compact lighthouse/pink         106 L
"""

#: Grandmother's photos, known by the day they arrived.
GRANDMOTHER = """
IMG-20251123-WA0001.jpg  kitchen/morning/flowers 201 L
IMG-20251130-WA0002.webp cake/lemon              202 S
IMG-20251206-WA0000.jpg  cat_window/rain/tree    310 L
IMG-20251225-WA0003.webp fir_tree/day            204 P
IMG-20260106-WA0001.jpg  snow_roofs/bright       205 L
IMG-20260115-WA0000.webp reading/afternoon       206 L
IMG-20260128-WA0002.jpg  kitchen/winter          207 L
IMG-20260214-WA0001.webp seedlings/evening       208 L
IMG-20260304-WA0003.jpg  kites/evening           209 L
"""

#: Message copies: name by day of arrival, seed and frame of the original, and who took it.
MESSAGE_COPIES = """
IMG-20251111-WA0001.jpg   1 1 ada
IMG-20251117-WA0000.webp  9 0 ada
IMG-20251213-WA0003.webp 35 0 ada
IMG-20251221-WA0002.jpg  45 0 ben
IMG-20251224-WA0007.webp 49 0 ada
IMG-20260101-WA0001.jpg  59 0 ben
IMG-20260111-WA0004.webp 67 1 ada
IMG-20260202-WA0000.jpg  81 2 ada
IMG-20260301-WA0005.webp 114 3 ada
"""
