"""The screens that pages are looked at on: width and height in CSS pixels."""

PHONE, TABLET, DESKTOP = (390, 844), (820, 1180), (1440, 900)
TOUCHED = (PHONE, TABLET)
