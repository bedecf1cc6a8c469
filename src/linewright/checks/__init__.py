# SPDX-License-Identifier: Apache-2.0
"""Rules across the stages above: they read, never mend."""
