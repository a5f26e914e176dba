"""What is taken for granted of bytes that are to be text."""

from __future__ import annotations

#: [bytes] with more than one control byte in so many, a file is no text; judged: a stray one in a header is let
#: through, a binary file has one in a few bytes
BYTES_PER_CONTROL_BYTE = 400
#: [1] share of zeros in every second byte from which bytes without a mark are UTF-16; judged: signs beyond Latin spoil
#: a few, bytes of one sign each have none
UTF16_ZERO_SHARE = 0.9
#: [bytes] how far zeros are counted to know UTF-16; judged: a header's worth; a file of words in another script has
#: zeros in its numbers further down
UTF16_LOOK = 2000
