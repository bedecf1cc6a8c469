# SPDX-License-Identifier: Apache-2.0
"""What is proved along a laid hose: falls, clips, passes, room to put it on, sureness."""
