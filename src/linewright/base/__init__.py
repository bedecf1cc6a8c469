# SPDX-License-Identifier: Apache-2.0
"""What every stage rests on: no car, no files, no clock."""
